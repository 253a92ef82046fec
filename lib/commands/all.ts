import { addPart } from "@/lib/commands/add-part";
import { allowLimit } from "@/lib/commands/allow-limit";
import { approveRules } from "@/lib/commands/approve-rules";
import { changeProvider } from "@/lib/commands/change-provider";
import { correctWorkstation, startSelfTest, takeOverCheck } from "@/lib/commands/check-hands";
import { claimTask, giveBackTask } from "@/lib/commands/claim-task";
import { claimTasks } from "@/lib/commands/claim-tasks";
import type { Command } from "@/lib/commands/command";
import { confirmCheck } from "@/lib/commands/confirm-check";
import { importDuty, setDuty } from "@/lib/commands/duty";
import { useInEmergency } from "@/lib/commands/emergency-use";
import { lookAtFault, reportFault } from "@/lib/commands/fault";
import { finishTask } from "@/lib/commands/finish-task";
import { fitPart, removePart } from "@/lib/commands/fit-part";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import { importDepartment } from "@/lib/commands/import-department";
import { closeRoom, endCase, openRoom, startCase } from "@/lib/commands/occupancy";
import { addPerson, changeRoles, setPassword } from "@/lib/commands/people";
import { declineRules, proposeRules } from "@/lib/commands/propose-rules";
import { recordAnswers } from "@/lib/commands/record-answers";
import { registerDevice, revokeDevice } from "@/lib/commands/register-device";
import { setModel } from "@/lib/commands/set-model";
import { setPlace } from "@/lib/commands/set-place";
import { retireRoom, setRoom } from "@/lib/commands/set-room";
import { setSite } from "@/lib/commands/set-site";
import { setList, setWeeklyTemplate } from "@/lib/commands/set-weekly-template";
import { retireWorkstation, setWorkstation } from "@/lib/commands/set-workstation";
import { signCheck } from "@/lib/commands/sign-check";
import { startCheck } from "@/lib/commands/start-check";
import { swapCylinder } from "@/lib/commands/swap-cylinder";
import { swapWorkstation } from "@/lib/commands/swap-workstation";
import { cannotDoTask, handOverTask, pauseTask, startTask, takeOverTask } from "@/lib/commands/task-work";

/** Every command, once: the routes, the API description, the permission test and the fuzzing all read this list. */
export const COMMANDS: readonly Command[] = [
  startCheck,
  recordAnswers,
  signCheck,
  confirmCheck,
  claimTask,
  giveBackTask,
  finishTask,
  claimTasks,
  startTask,
  pauseTask,
  handOverTask,
  takeOverTask,
  cannotDoTask,
  takeOverCheck,
  correctWorkstation,
  startSelfTest,
  swapCylinder,
  swapWorkstation,
  fitPart,
  removePart,
  reportFault,
  lookAtFault,
  useInEmergency,
  changeProvider,
  setDuty,
  importDuty,
  allowLimit,
  holdWorkstation,
  liftHold,
  startCase,
  endCase,
  closeRoom,
  openRoom,
  importDepartment,
  setPlace,
  setRoom,
  retireRoom,
  setModel,
  setWorkstation,
  retireWorkstation,
  addPart,
  setWeeklyTemplate,
  setList,
  setSite,
  proposeRules,
  approveRules,
  declineRules,
  registerDevice,
  revokeDevice,
  addPerson,
  changeRoles,
  setPassword,
];

export const commandNamed = (name: string): Command | undefined => COMMANDS.find((command) => command.name === name);
