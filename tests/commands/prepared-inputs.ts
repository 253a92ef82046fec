import type { Actor } from "@/lib/auth/actor";
import { claimTask, giveBackTask } from "@/lib/commands/claim-task";
import { reportFault } from "@/lib/commands/fault";
import { fitPart } from "@/lib/commands/fit-part";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import { importDepartment } from "@/lib/commands/import-department";
import { closeRoom, endCase, openRoom, startCase } from "@/lib/commands/occupancy";
import { addPerson } from "@/lib/commands/people";
import { recordAnswers } from "@/lib/commands/record-answers";
import { startCheck } from "@/lib/commands/start-check";
import { swapCylinder } from "@/lib/commands/swap-cylinder";
import { issueToken } from "@/lib/commands/tokens";
import type { WorkstationEvidence } from "@/lib/domain/evidence";
import type { CommandName } from "@/lib/domain/permission";
import { readEvidence } from "@/lib/queries/evidence";
import { readSpareParts } from "@/lib/queries/spare-parts";
import { readSpares } from "@/lib/queries/spares";
import { readTask } from "@/lib/queries/task";
import { readTasks } from "@/lib/queries/tasks";
import { paperTime } from "@/tests/support/paper-time";
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
import { PREPARE_ACCESS } from "./prepared-access";
import { PREPARE_EVENTS } from "./prepared-events";
import { PREPARE_MESSAGES } from "./prepared-messages";
import { PREPARE_PROCEDURES } from "./prepared-procedures";
import { PREPARE_SET_UP } from "./prepared-set-up";

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
  const found = await roomNamed(department, "Procedure 1");
  const { roomId } = found;
  if (found.occupancy.state === "in-use") await department.must(endCase, { roomId }, helper);
  const { occupancy } = await roomNamed(department, "Procedure 1");
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

const SPARES = ["SP-01", "SP-02"] as const;
const CYLINDERS =
  "serial,gas,scheme,size,water capacity L,rated contents L,rated pressure,rated pressure unit,expiry,retest due,workstation,yoke,store,contents";
const SPARE_FILES = {
  workstations: [
    "tag,serial,model,room,store",
    ...SPARES.map((tag) => `${tag},${tag}-9,Ostwick A3,,Cylinder store`),
  ].join("\n"),
  cylinders: [CYLINDERS, ...SPARES.map((tag) => `OX-${tag},oxygen,US,E,4.8,660,1900,psi,,,${tag},1,,in use`)].join(
    "\n",
  ),
};

/** Two spares take turns in the room that is otherwise empty. */
async function swapIn(scene: Scene) {
  const { department, helper } = scene;
  const { roomId } = await emptyRoom(scene, "idle");
  const { workstation } = await roomNamed(department, "Procedure 1");
  if (!workstation) await department.must(importDepartment, { files: SPARE_FILES }, helper);
  const spares = await readSpares(helper, roomId, readingOf(department));
  const incoming = spares?.unsuitable.find(({ tag, acceptable }) => acceptable && /^SP-/.test(tag));
  const store = spares?.stores[0];
  if (!incoming || !store) throw new Error("there is no spare to swap in");
  return {
    roomId,
    outgoingWorkstationId: workstation?.id ?? null,
    incomingWorkstationId: incoming.workstationId,
    outgoingTo: workstation ? { store: store.id } : null,
    acceptUnchecked: true,
  };
}

async function newAbsorbent(scene: Scene) {
  const { id, fitted } = await workstationOf(scene, "OR 1");
  const [charge] = fitted.absorbent;
  if (!charge) throw new Error("no absorbent in OR 1");
  const part = { kind: "absorbent" as const, which: { sameProduct: true as const } };
  return { workstationId: id, part, position: charge.position, takesOff: charge.id };
}

async function fittedVaporizer(scene: Scene) {
  const { id, fitted, model } = await workstationOf(scene, "OR 1");
  const on = fitted.vaporizers[0];
  if (on) return { workstationId: id, kind: "vaporizer" as const, partId: on.id };
  const { roomId } = await roomNamed(scene.department, "OR 1");
  const parts = await readSpareParts(scene.helper, roomId, readingOf(scene.department));
  const partId = parts?.vaporizers.find(({ fittedTo }) => fittedTo === null)?.id ?? "";
  const part = { kind: "vaporizer" as const, which: { id: partId } };
  const position = model.mounts[0] ?? "";
  await scene.department.must(fitPart, { workstationId: id, part, position, takesOff: null }, scene.helper);
  return { workstationId: id, kind: "vaporizer" as const, partId };
}

async function reportedFault(scene: Scene) {
  const { id } = await workstationOf(scene, "OR 1");
  const fault = { workstationId: id, text: `A knob is loose (${fresh()})`, wouldNotUse: false };
  const { faultId } = await scene.department.must(reportFault, fault, scene.helper);
  return { workstationId: id, faultId, conclusion: "Tightened, holds." };
}

/** A check that somebody else has begun, with one answer in it. */
async function checkOfAnother({ department }: Scene) {
  const another = await department.person("Jon Stack", ["technician"]);
  const check = await beginCheck(department, "OR 1", another);
  const answers = [given(question(check, "self-inflating-bag"), WORKS)];
  await department.must(recordAnswers, { checkId: check.id, answers }, another);
  return check.id;
}

/** Of the small department's workstations the one in the workroom has a test of its own. */
async function spareWithSelfTest({ department, helper }: Scene): Promise<string> {
  const { roomId } = await roomNamed(department, "OR 1");
  const spares = await readSpares(helper, roomId, readingOf(department));
  const all = [...(spares?.suitable ?? []), ...(spares?.unsuitable ?? [])];
  return all.find(({ tag }) => tag === "AW-02")?.workstationId ?? "";
}

async function claimedTask(scene: Scene, by: Actor) {
  const task = await freeTask(scene);
  await scene.department.must(claimTask, task, by);
  return task;
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
  ...PREPARE_SET_UP,
  ...PREPARE_PROCEDURES,
  ...PREPARE_MESSAGES,
  ...PREPARE_ACCESS(FIRST_PASSWORD, async ({ department, helper }, input) => {
    const { tokenId } = await department.must(issueToken, input, helper);
    return { tokenId };
  }),
  ...PREPARE_EVENTS(limitToAllow),
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
  "claim-tasks": async (scene) => ({ keys: [(await freeTask(scene)).key] }),
  "start-task": freeTask,
  "pause-task": async (scene) => ({ ...(await claimedTask(scene, scene.actor)), reason: "Called to OR 3." }),
  "hand-over-task": async (scene) => {
    const { personId } = await scene.department.person("Lea Marr", ["technician"]);
    return { ...(await claimedTask(scene, scene.actor)), toPersonId: personId };
  },
  "take-over-task": async (scene) => {
    const another = await scene.department.person("Jon Stack", ["technician"]);
    return { ...(await claimedTask(scene, another)), reason: "Jon has gone home." };
  },
  "cannot-do-task": async (scene) => ({ ...(await freeTask(scene)), reason: "The room is locked." }),
  "take-over-check": async (scene) => ({ checkId: await checkOfAnother(scene), reason: "Jon was called away." }),
  "correct-workstation": async (scene) => ({
    checkId: await checkOfAnother(scene),
    workstationId: await workstationIn(scene.department, "OR 3"),
    reason: "The numbers were mixed up.",
  }),
  "enter-paper-check": async (scene) => {
    const { answers } = await answeredCheck(scene);
    const doer = await scene.department.person("Jon Stack", ["technician"]);
    const workstationId = await workstationIn(scene.department, "OR 1");
    return { workstationId, kind: "daily", doneBy: doer.personId, ...paperTime(scene.department, 1, 1), answers };
  },
  "start-self-test": async (scene) => {
    const workstationId = await spareWithSelfTest(scene);
    const another = await scene.department.person("Jon Stack", ["technician"]);
    const { checkId } = await scene.department.must(startCheck, { workstationId, kind: "daily" }, another);
    return { checkId };
  },
  "swap-workstation": swapIn,
  "fit-part": newAbsorbent,
  "remove-part": fittedVaporizer,
  "report-fault": async (scene) => ({
    workstationId: (await workstationOf(scene, "OR 1")).id,
    text: `The screen flickers (${fresh()})`,
    wouldNotUse: false,
  }),
  "look-at-fault": reportedFault,
  "use-in-emergency": async (scene) => ({ ...(await emptyRoom(scene, "idle")), reason: "Ruptured aneurysm." }),
  "change-provider": async (scene) => ({ ...(await readyRoom(scene, "in-use")), confirmed: true }),
  "set-duty": async ({ department }) => ({
    date: "2026-11-24",
    personId: department.admin.personId,
    spans: [{ role: "manager", from: "06:00", to: "14:00" }],
  }),
  "import-duty": async () => ({ csv: "date,user id,role,from,to\ntoday+1,abrook,manager,06:00,14:00" }),
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
  "give-password": async (scene) => ({ ...(await somebodyNew(scene)), password: FIRST_PASSWORD }),
  "set-password": async () => ({ current: FIRST_PASSWORD, next: FIRST_PASSWORD }),
};
