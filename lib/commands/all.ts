import { addPart } from "@/lib/commands/add-part";
import { allowLimit } from "@/lib/commands/allow-limit";
import { approveProcedure } from "@/lib/commands/approve-procedure";
import { approveRules } from "@/lib/commands/approve-rules";
import { changeProvider } from "@/lib/commands/change-provider";
import { addChannel, chooseSummaries, removeChannel, testChannel } from "@/lib/commands/channels";
import { correctWorkstation, startSelfTest, takeOverCheck } from "@/lib/commands/check-hands";
import { claimTask, giveBackTask } from "@/lib/commands/claim-task";
import { claimTasks } from "@/lib/commands/claim-tasks";
import type { Command } from "@/lib/commands/command";
import { confirmCheck } from "@/lib/commands/confirm-check";
import { declineProcedure } from "@/lib/commands/decline-procedure";
import { importDuty, setDuty } from "@/lib/commands/duty";
import { useInEmergency } from "@/lib/commands/emergency-use";
import { endEvent } from "@/lib/commands/end-event";
import { enterPaperCheck } from "@/lib/commands/enter-paper-check";
import { acknowledgeEscalation, escalateTask, passOnEscalation } from "@/lib/commands/escalations";
import { lookAtFault, reportFault } from "@/lib/commands/fault";
import { finishTask } from "@/lib/commands/finish-task";
import { fitPart, removePart } from "@/lib/commands/fit-part";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import { bindIdentity, unbindIdentity } from "@/lib/commands/identities";
import { importDepartment } from "@/lib/commands/import-department";
import { closeRoom, endCase, openRoom, startCase } from "@/lib/commands/occupancy";
import { addPerson, changeRoles, givePassword, setPassword } from "@/lib/commands/people";
import { clearPin, setPin } from "@/lib/commands/pin";
import { prepareVaporFree } from "@/lib/commands/prepare-vapor-free";
import { draftProcedure, dropProcedure, proposeProcedure, saveProcedure } from "@/lib/commands/propose-procedure";
import { declineRules, proposeRules } from "@/lib/commands/propose-rules";
import { raiseEvent } from "@/lib/commands/raise-event";
import { recordAnswers } from "@/lib/commands/record-answers";
import { registerDevice, revokeDevice } from "@/lib/commands/register-device";
import { renewHeadKey } from "@/lib/commands/renew-head-key";
import { requestVaporFree, withdrawVaporFree } from "@/lib/commands/request-vapor-free";
import { returnToService } from "@/lib/commands/return-to-service";
import { revokeAllowance } from "@/lib/commands/revoke-allowance";
import { setAccess } from "@/lib/commands/set-access";
import { setModel } from "@/lib/commands/set-model";
import { setPlace } from "@/lib/commands/set-place";
import { addRooms, retireRoom, setRoom } from "@/lib/commands/set-room";
import { setSite } from "@/lib/commands/set-site";
import { setList, setWeeklyTemplate } from "@/lib/commands/set-weekly-template";
import { retireWorkstation, setWorkstation } from "@/lib/commands/set-workstation";
import { signCheck } from "@/lib/commands/sign-check";
import { startCheck } from "@/lib/commands/start-check";
import { swapCylinder } from "@/lib/commands/swap-cylinder";
import { swapWorkstation } from "@/lib/commands/swap-workstation";
import { cannotDoTask, handOverTask, pauseTask, startTask, takeOverTask } from "@/lib/commands/task-work";
import { issueToken, revokeToken } from "@/lib/commands/tokens";

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
  escalateTask,
  acknowledgeEscalation,
  passOnEscalation,
  addChannel,
  removeChannel,
  testChannel,
  chooseSummaries,
  takeOverCheck,
  correctWorkstation,
  startSelfTest,
  enterPaperCheck,
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
  revokeAllowance,
  raiseEvent,
  returnToService,
  endEvent,
  requestVaporFree,
  withdrawVaporFree,
  prepareVaporFree,
  holdWorkstation,
  liftHold,
  startCase,
  endCase,
  closeRoom,
  openRoom,
  importDepartment,
  setPlace,
  setRoom,
  addRooms,
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
  draftProcedure,
  saveProcedure,
  proposeProcedure,
  dropProcedure,
  approveProcedure,
  declineProcedure,
  registerDevice,
  revokeDevice,
  addPerson,
  changeRoles,
  givePassword,
  setPassword,
  setPin,
  clearPin,
  setAccess,
  bindIdentity,
  unbindIdentity,
  issueToken,
  revokeToken,
  renewHeadKey,
];

export const commandNamed = (name: string): Command | undefined => COMMANDS.find((command) => command.name === name);
