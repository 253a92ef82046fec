import type { Actor } from "@/lib/auth/actor";
import { claimTask, giveBackTask } from "@/lib/commands/claim-task";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import { importDepartment } from "@/lib/commands/import-department";
import { closeRoom, endCase, openRoom, startCase } from "@/lib/commands/occupancy";
import { addPerson } from "@/lib/commands/people";
import { recordAnswers } from "@/lib/commands/record-answers";
import { swapCylinder } from "@/lib/commands/swap-cylinder";
import type { WorkstationEvidence } from "@/lib/domain/evidence";
import type { CommandName } from "@/lib/domain/permission";
import { readEvidence } from "@/lib/queries/evidence";
import { readTask } from "@/lib/queries/task";
import { readTasks } from "@/lib/queries/tasks";
import {
  beginCheck,
  checkSeen,
  checkWhole,
  given,
  question,
  readingOf,
  roomNamed,
  workstationIn,
} from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";

/** Everybody's first password in these tests. */
export const FIRST_PASSWORD = "a first password of the tests";

export interface Scene {
  readonly department: SmallDepartment;
  /** Somebody who may do everything, and brings the department to where the command is possible. */
  readonly helper: Actor;
  /** Who is going to give the command. */
  readonly actor: Actor;
}

type Make = (scene: Scene) => Promise<unknown>;

/** An input that each command accepts, after the department was brought to where it makes sense. */
export const inputFor = (command: CommandName, scene: Scene): Promise<unknown> => PREPARE[command](scene);

const WORKS = { kind: "pass", passed: true } as const;
let counted = 0;
const fresh = (): string => {
  counted += 1;
  return `${counted}`;
};

async function workstationOf({ department, helper }: Scene, roomName: string): Promise<WorkstationEvidence> {
  const { roomId } = await roomNamed(department, roomName);
  const evidence = await readEvidence(helper, roomId, readingOf(department));
  if (!evidence?.workstation) throw new Error(`no workstation in ${roomName}`);
  return evidence.workstation;
}

/** An open check of the helper's own with one answer in it. */
async function answeredCheck({ department, helper }: Scene) {
  const check = await beginCheck(department, "OR 1", helper);
  const answers = [given(question(check, "self-inflating-bag"), WORKS)];
  await department.must(recordAnswers, { checkId: check.id, answers }, helper);
  return { check: await checkSeen(department, check.id, helper), answers };
}

async function readyRoom({ department, helper }: Scene, occupancy: "idle" | "in-use"): Promise<{ roomId: string }> {
  let room = await roomNamed(department, "OR 2");
  const input = { roomId: room.roomId };
  if (room.occupancy.state === "in-use" && occupancy === "idle") await department.must(endCase, input, helper);
  if (room.state !== "ready") await checkWhole(department, "OR 2", helper);
  room = await roomNamed(department, "OR 2");
  if (room.occupancy.state === "idle" && occupancy === "in-use") await department.must(startCase, input, helper);
  return input;
}

async function emptyRoom({ department, helper }: Scene, state: "idle" | "closed"): Promise<{ roomId: string }> {
  const { roomId, occupancy } = await roomNamed(department, "Procedure 1");
  if (occupancy.state === "idle" && state === "closed") await department.must(closeRoom, { roomId }, helper);
  if (occupancy.state === "closed" && state === "idle") await department.must(openRoom, { roomId }, helper);
  return { roomId };
}

/** A task that nobody has; one that somebody here still has is given back first. */
async function freeTask({ department, helper }: Scene): Promise<{ key: string }> {
  const { tasks } = await readTasks(helper, readingOf(department));
  const checks = tasks.filter(({ kind }) => kind === "check");
  const free = checks.find(({ claim }) => claim === null);
  if (free) return { key: free.key };
  for (const { key, claim } of checks) {
    if (claim === null) continue;
    const back = await department.run(giveBackTask, { key }, { ...helper, personId: claim.personId });
    if (back.ok) return { key };
  }
  throw new Error("there is no task to take");
}

/** The other one of two oxygen cylinders that take turns on one yoke. */
async function swapOn(scene: Scene, roomName: string, serials: readonly [string, string]) {
  const { id, fitted } = await workstationOf(scene, roomName);
  const on = fitted.cylinders.find(({ position }) => position === "1")?.serial;
  const serial = on === serials[0] ? serials[1] : serials[0];
  return { workstationId: id, position: "1", cylinder: { serial }, takenOff: "in-use" as const };
}

async function recheckOf(scene: Scene) {
  const { department, helper } = scene;
  await checkWhole(department, "OR 3", helper);
  department.clock.add(1);
  const swap = await swapOn(scene, "OR 3", ["OX-50003", "OX-50004"]);
  const { recheckTaskKey } = await department.must(swapCylinder, swap, helper);
  const detail = await readTask(helper, recheckTaskKey ?? "", readingOf(department));
  if (!detail) throw new Error("the swap owed no recheck");
  return { key: detail.task.key, answers: detail.items.map((item) => given(item, goodAnswer(item))) };
}

async function holdOf(scene: Scene): Promise<{ workstationId: string; holdId: string | null }> {
  const { id, holds } = await workstationOf(scene, "OR 1");
  return { workstationId: id, holdId: holds.find(({ by }) => by === scene.actor.personId)?.id ?? null };
}

const reason = "Something rattles in the drive.";

async function noHold(scene: Scene) {
  const { workstationId, holdId } = await holdOf(scene);
  if (holdId) await scene.department.must(liftHold, { workstationId, holdId, reason }, scene.actor);
  return { workstationId, reason };
}

async function ownHold(scene: Scene) {
  const { workstationId, holdId } = await holdOf(scene);
  const held = holdId
    ? { holdId }
    : await scene.department.must(holdWorkstation, { workstationId, reason }, scene.actor);
  return { workstationId, holdId: held.holdId, reason };
}

/** A vaporizer that is empty, and a service that is late: the one is the charge provider's to allow, the other takes two others. */
async function limitToAllow(scene: Scene) {
  const { department, helper, actor } = scene;
  await checkWhole(department, "OR 3", helper, (item) =>
    item.item === "vaporizer-fill" ? { kind: "choice", choice: "empty" } : goodAnswer(item),
  );
  const service = "workstation,plan,due,window from,window to\nAW-04,half-yearly,today-60,today-90,today-30";
  await department.must(importDepartment, { files: { service } }, helper);
  const engineering = /biomedical|manager/.test(actor.userId);
  return {
    workstationId: await workstationIn(department, "OR 3"),
    rule: engineering ? "service-late" : "vaporizer-lost",
    allowFor: "1-day",
    measures: "Propofol pump in the room.",
  };
}

async function somebodyNew({ department, helper }: Scene) {
  const person = {
    userId: `target.${fresh()}`,
    name: "Mara Lind",
    roles: ["supplies" as const],
    password: FIRST_PASSWORD,
  };
  return department.must(addPerson, person, helper);
}

const PREPARE: Record<CommandName, Make> = {
  "start-check": async ({ department }) => ({ workstationId: await workstationIn(department, "OR 1"), kind: "daily" }),
  "save-draft": async (scene) => ({ checkId: (await answeredCheck(scene)).check.id, answers: { suction: fresh() } }),
  "record-answers": async (scene) => {
    const { check, answers } = await answeredCheck(scene);
    return { checkId: check.id, answers };
  },
  "sign-check": async (scene) => {
    const { check } = await answeredCheck(scene);
    return { checkId: check.id, seenVersion: check.version };
  },
  "confirm-check": async ({ department, helper }) => {
    const { id, version } = await checkWhole(department, "OR 2", helper);
    return { checkId: id, seenVersion: version };
  },
  "claim-task": freeTask,
  "give-back-task": async (scene) => {
    const task = await freeTask(scene);
    await scene.department.must(claimTask, task, scene.actor);
    return task;
  },
  "finish-task": recheckOf,
  "swap-cylinder": (scene) => swapOn(scene, "OR 1", ["OX-40117", "OX-40118"]),
  "allow-limit": limitToAllow,
  "hold-workstation": noHold,
  "lift-hold": ownHold,
  "start-case": (scene) => readyRoom(scene, "idle"),
  "end-case": (scene) => readyRoom(scene, "in-use"),
  "close-room": (scene) => emptyRoom(scene, "idle"),
  "open-room": (scene) => emptyRoom(scene, "closed"),
  "import-department": async () => ({ files: { stores: `name\nCupboard ${fresh()}` } }),
  "add-person": async () => ({
    userId: `new.${fresh()}`,
    name: "Ivo Reck",
    roles: ["technician"],
    password: FIRST_PASSWORD,
  }),
  "add-facility": async () => ({
    name: `Alder Ridge ${fresh()}`,
    timeZone: "Europe/London",
    scheme: "ISO",
    pressureUnit: "bar",
  }),
  "change-roles": async (scene) => ({ ...(await somebodyNew(scene)), roles: ["technician"], active: true }),
  "set-password": async () => ({ current: FIRST_PASSWORD, next: FIRST_PASSWORD }),
};
