import type { z } from "zod";
import type * as check from "@/lib/schemas/check";
import type * as room from "@/lib/schemas/room";
import type * as setUp from "@/lib/schemas/set-up";
import type * as task from "@/lib/schemas/task";

type Pair<Request extends z.ZodType, Reply extends z.ZodType> = { input: z.input<Request>; reply: z.output<Reply> };

/** What each command takes and answers, read from the schemas of the API; nothing of zod reaches the browser by this. */
export interface Commands {
  "start-check": Pair<typeof check.startCheckRequest, typeof check.startCheckReply>;
  "save-draft": Pair<typeof check.saveDraftRequest, typeof check.saveDraftReply>;
  "record-answers": Pair<typeof check.recordAnswersRequest, typeof check.recordAnswersReply>;
  "sign-check": Pair<typeof check.signCheckRequest, typeof check.signCheckReply>;
  "confirm-check": Pair<typeof check.confirmCheckRequest, typeof check.confirmCheckReply>;
  "claim-task": Pair<typeof task.claimTaskRequest, typeof task.claimTaskReply>;
  "give-back-task": Pair<typeof task.giveBackTaskRequest, typeof task.giveBackTaskReply>;
  "finish-task": Pair<typeof task.finishTaskRequest, typeof task.finishTaskReply>;
  "swap-cylinder": Pair<typeof task.swapCylinderRequest, typeof task.swapCylinderReply>;
  "allow-limit": Pair<typeof task.allowLimitRequest, typeof task.allowLimitReply>;
  "hold-workstation": Pair<typeof room.holdWorkstationRequest, typeof room.holdWorkstationReply>;
  "lift-hold": Pair<typeof room.liftHoldRequest, typeof room.liftHoldReply>;
  "start-case": Pair<typeof room.roomRequest, typeof room.roomReply>;
  "end-case": Pair<typeof room.roomRequest, typeof room.roomReply>;
  "close-room": Pair<typeof room.roomRequest, typeof room.roomReply>;
  "open-room": Pair<typeof room.roomRequest, typeof room.roomReply>;
  "import-department": Pair<typeof setUp.importRequest, typeof setUp.importReply>;
  "add-person": Pair<typeof setUp.addPersonRequest, typeof setUp.addPersonReply>;
  "change-roles": Pair<typeof setUp.changeRolesRequest, typeof setUp.changeRolesReply>;
  "set-password": Pair<typeof setUp.setPasswordRequest, typeof setUp.setPasswordReply>;
  "add-facility": Pair<typeof setUp.addFacilityRequest, typeof setUp.addFacilityReply>;
}
export type CommandName = keyof Commands;
