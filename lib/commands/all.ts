import { allowLimit } from "@/lib/commands/allow-limit";
import { claimTask, giveBackTask } from "@/lib/commands/claim-task";
import type { Command } from "@/lib/commands/command";
import { confirmCheck } from "@/lib/commands/confirm-check";
import { finishTask } from "@/lib/commands/finish-task";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import { importDepartment } from "@/lib/commands/import-department";
import { closeRoom, endCase, openRoom, startCase } from "@/lib/commands/occupancy";
import { addPerson, changeRoles, setPassword } from "@/lib/commands/people";
import { recordAnswers } from "@/lib/commands/record-answers";
import { signCheck } from "@/lib/commands/sign-check";
import { startCheck } from "@/lib/commands/start-check";
import { swapCylinder } from "@/lib/commands/swap-cylinder";

/** Every command, once: the routes, the API description, the permission test and the fuzzing all read this list. */
export const COMMANDS: readonly Command[] = [
  startCheck,
  recordAnswers,
  signCheck,
  confirmCheck,
  claimTask,
  giveBackTask,
  finishTask,
  swapCylinder,
  allowLimit,
  holdWorkstation,
  liftHold,
  startCase,
  endCase,
  closeRoom,
  openRoom,
  importDepartment,
  addPerson,
  changeRoles,
  setPassword,
];

export const commandNamed = (name: string): Command | undefined => COMMANDS.find((command) => command.name === name);
