import { claimTask } from "@/lib/commands/claim-task";
import { finishTask } from "@/lib/commands/finish-task";
import { fitPart } from "@/lib/commands/fit-part";
import { recordAnswers } from "@/lib/commands/record-answers";
import { signCheck } from "@/lib/commands/sign-check";
import { startCheck } from "@/lib/commands/start-check";
import { swapCylinder } from "@/lib/commands/swap-cylinder";
import type { ItemId } from "@/lib/domain/items";
import type { Severity } from "@/lib/domain/judgement";
import { expandProcedure, taskItems } from "@/lib/domain/procedure/decide";
import { wayOfTask } from "@/lib/domain/task-way";
import { spareCylinders } from "@/lib/storage/equipment";
import type { Holder } from "@/lib/storage/evidence";
import type { OpenTask } from "@/lib/storage/tasks";
import { dateIn, type Instant, later, MINUTE } from "@/lib/units/time";
import type { Doing } from "./agenda";
import { answerTo } from "./answers";
import type { Condition } from "./condition";
import type { Department } from "./department";
import type { Chance } from "./random";

/** What a technician carries from room to room. */
export interface Round {
  readonly department: Department;
  readonly condition: Condition;
  readonly chance: Chance;
}

/** A check that was signed: what a provider confirms. */
export interface SignedCheck {
  readonly checkId: string;
  readonly version: number;
  readonly at: Instant;
}

/** What is found broken now and then, and how often: most rooms on most days have nothing. */
const FOUND_BROKEN: readonly (readonly [ItemId, number])[] = [
  ["breathing-leak", 0.012],
  ["suction", 0.008],
  ["oxygen-in-air", 0.006],
  ["low-pressure-leak", 0.004],
  ["cylinder-key", 0.004],
  ["circuit", 0.004],
  ["capnograph", 0.003],
  ["scavenging-extraction", 0.003],
];

/** A whole daily check, from opening to signature, by one person. */
export async function* checkRoom(
  round: Round,
  who: string,
  holder: Holder,
  at: Instant,
  surprises = true,
): Doing<SignedCheck> {
  const { department, condition, chance } = round;
  const { workstationId, procedure, evidence } = holder;
  if (!workstationId || !procedure) throw new Error("there is nothing to check here");
  if (surprises)
    for (const [item, share] of FOUND_BROKEN) if (chance.once(share)) condition.breaks(workstationId, item);
  if (surprises && chance.once(0.75)) topUp(holder, condition);
  const { checkId } = await department.does(who, at, startCheck, { workstationId, kind: "daily" });
  const recordedAt = later(at, chance.whole(6, 9) * MINUTE);
  const answers = expandProcedure(procedure, evidence).map((question) => ({
    item: question.item,
    subject: question.subject,
    answer: answerTo(question, holder, condition, chance),
  }));
  yield recordedAt;
  const { version } = await department.does(who, recordedAt, recordAnswers, { checkId, answers });
  const signedAt = later(recordedAt, MINUTE);
  yield signedAt;
  await department.does(who, signedAt, signCheck, { checkId, seenVersion: version });
  return { checkId, version: version + 1, at: signedAt };
}

/** The workstations in the stores, one after the other, each put right at once: a spare that owes nothing can take a room's place. */
export async function* checkSpares(round: Round, who: string, at: Instant): Doing<Instant> {
  let now = at;
  for (const holder of sparesOf(await round.department.holders(at))) {
    if (!holder.procedure || isWithdrawn(holder)) continue;
    const signed = yield* checkRoom(round, who, holder, now);
    now = later(yield* mendRoom(round, who, holder, signed.at, EVERYTHING), MINUTE);
    yield now;
  }
  return now;
}

/** By their numbers: ids are new in every database. */
export const sparesOf = (holders: readonly Holder[]): Holder[] =>
  holders.filter(({ kind }) => kind === "workstation").sort((left, right) => (tagOf(left) < tagOf(right) ? -1 : 1));

const tagOf = ({ evidence }: Holder): string => evidence.workstation?.tag ?? "";

const EVERYTHING: readonly Severity[] = ["stops", "limits", "owed", "due"];

/** What somebody holds or has taken out of service is nobody's spare. */
const isWithdrawn = ({ evidence: { workstation } }: Holder): boolean => (workstation?.holds.length ?? 0) > 0;

/** Somebody with a bottle in the hand fills a low vaporizer before writing down its level. */
function topUp({ evidence }: Holder, condition: Condition): void {
  for (const vaporizer of evidence.workstation?.fitted.vaporizers ?? [])
    if (condition.level(vaporizer) < 0.6) condition.setLevel(vaporizer.tag, 1);
}

/** More in a row than one workstation ever needs; without an end a mistake in the story would go on for ever. */
const MOST_TASKS = 12;

/** Clears what may be cleared by hand in one room, task by task, and says when it was done. */
export async function* mendRoom(
  round: Round,
  who: string,
  holder: Holder,
  at: Instant,
  severities: readonly Severity[],
): Doing<Instant> {
  let now = at;
  const done: string[] = [];
  for (let count = 0; count < MOST_TASKS; count += 1) {
    const tasks = await round.department.tasksOf(holder, now);
    const current = await round.department.holder(holder, now);
    const task = tasks.find((one) => severities.includes(one.draft.severity) && handworkOf(one, current) !== null);
    const handwork = task && handworkOf(task, current);
    if (!task || !handwork) return now;
    done.push(task.draft.title);
    now = yield* doTask(round, who, holder, task, handwork, now);
  }
  const where = holder.evidence.room?.name ?? holder.evidence.workstation?.tag;
  throw new Error(`the work in ${where} never ends: ${done.join("; ")}`);
}

type Handwork = "swap" | "charge" | "answers";

/** What a technician can do about a task at once; null for what is somebody else's, and for what no answer clears: a trend is watched. */
function handworkOf({ draft }: OpenTask, { evidence }: Holder): Handwork | null {
  if (!draft.mayDo.includes("technician")) return null;
  if (draft.kind === "swap-cylinder") return "swap";
  if (draft.kind !== "recheck" && draft.kind !== "clear") return null;
  const way = wayOfTask(draft, evidence);
  // A dye that reverts at rest looks good again in the morning: only a new charge clears what was seen.
  if (way.kind === "fit-part" && way.part === "absorbent") return "charge";
  return way.kind === "answers" ? "answers" : null;
}

async function* doTask(
  round: Round,
  who: string,
  holder: Holder,
  task: OpenTask,
  handwork: Handwork,
  at: Instant,
): Doing<Instant> {
  const { department, chance } = round;
  // The task may be somebody's already: whoever took it, the work gets done, and the claim ends with the task.
  if (task.claim === null) await department.does(who, at, claimTask, { key: task.key });
  const doneAt = later(at, chance.whole(3, 8) * MINUTE);
  yield doneAt;
  const current = await department.holder(holder, doneAt);
  if (handwork === "swap") await swap(round, who, current, task, doneAt);
  else if (handwork === "charge") await changeAbsorbent(round, who, current, task, doneAt);
  else await finish(round, task.claim === null ? who : claimant(department, task), current, task, doneAt);
  return doneAt;
}

async function changeAbsorbent(
  { department, condition }: Round,
  who: string,
  { evidence: { workstation } }: Holder,
  task: OpenTask,
  at: Instant,
) {
  const spent = workstation?.fitted.absorbent.find(({ id }) => id === task.draft.subject?.id);
  if (!workstation || !spent) throw new Error("the absorbent to change is not fitted any more");
  const { fitted } = await department.does(who, at, fitPart, {
    workstationId: workstation.id,
    part: { kind: "absorbent", which: { sameProduct: true } },
    position: spent.position,
    takesOff: spent.id,
  });
  condition.setColour(fitted, 0.01);
}

const claimant = (department: Department, { claim }: OpenTask): string => department.userIdOf(claim?.personId ?? "");

async function swap(
  { department, condition, chance }: Round,
  who: string,
  holder: Holder,
  task: OpenTask,
  at: Instant,
) {
  const workstation = holder.evidence.workstation;
  const off = workstation?.fitted.cylinders.find(({ id }) => id === task.draft.subject?.id);
  if (!workstation || !off) throw new Error("the cylinder to swap is not fitted any more");
  const today = dateIn(department.timeZone, at);
  const spares = await department.read((tx, { facilityId }) => spareCylinders(tx, facilityId, off.gas, today));
  const spare = spares[0];
  if (!spare) throw new Error(`${department.name} has no spare cylinder of ${off.gas}`);
  condition.setPressure(spare.serial, chance.between(0.98, 1.03));
  await department.does(who, at, swapCylinder, {
    workstationId: workstation.id,
    position: off.position,
    cylinder: { serial: spare.serial },
    takenOff: "empty",
  });
}

async function finish(
  { department, condition, chance }: Round,
  who: string,
  holder: Holder,
  task: OpenTask,
  at: Instant,
) {
  if (!holder.procedure) throw new Error("a task without a procedure has no questions");
  condition.mends(
    holder,
    task.draft.items.map(({ item }) => item),
  );
  const answers = taskItems(task.draft, holder.procedure, holder.evidence).map((question) => ({
    item: question.item,
    subject: question.subject,
    answer: answerTo(question, holder, condition, chance),
  }));
  const finished = await department.tries(who, at, finishTask, { key: task.key, answers });
  // While it was being done the clock may have made it part of the next day's check.
  if (!finished.ok && finished.refusal !== "not-found") throw new Error(`${department.name}: ${finished.message}`);
}
