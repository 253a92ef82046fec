import { type AnswerInput, type JudgedAnswer, judgeAnswers, observationsOf } from "@/lib/commands/answers";
import type { CheckAtHand } from "@/lib/commands/at-hand";
import { checkAtHand, procedureOfCheck, workstationAtHand } from "@/lib/commands/at-hand";
import type { Context, Refusal } from "@/lib/commands/command";
import type { Answer } from "@/lib/domain/answer";
import { answerKey } from "@/lib/domain/check/model";
import { decideDeviceTime, type KnownTime } from "@/lib/domain/device-time";
import type { Evidence, Verdict } from "@/lib/domain/evidence";
import { itemOf } from "@/lib/domain/items";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { actingRole } from "@/lib/domain/permission";
import type { CheckItem } from "@/lib/domain/procedure/decide";
import { checkMarks } from "@/lib/domain/rules/policy/check-marks";
import { valuesOf } from "@/lib/domain/rules/settings";
import { answerProblem } from "@/lib/domain/verdict";
import type { Role } from "@/lib/domain/vocabulary";
import { whyNotAnswered } from "@/lib/domain/who-answers";
import type { KeptOnDevice } from "@/lib/schemas/offline";
import { findProcedure } from "@/lib/storage/check-reading";
import { type CheckRecord, insertCheck, type NewObservation } from "@/lib/storage/checks";
import type { Tx } from "@/lib/storage/client";
import type { Holder } from "@/lib/storage/evidence";
import { listPeople } from "@/lib/storage/people";
import { instant, instantOf } from "@/lib/units/time";

export interface KeptInput {
  readonly checkId: string;
  readonly answers: readonly (AnswerInput & { readonly givenAt?: string })[];
  readonly kept?: KeptOnDevice;
}

/** Who gave the answers, which is not always who sends them. */
export interface Giver {
  readonly id: string;
  readonly name: string;
  readonly role: Role | null;
}

export interface KeptAtHand extends CheckAtHand {
  /** The check was begun on the device and is not stored yet. */
  readonly isNew: boolean;
  /** Null when there is nobody here with that id. */
  readonly giver: Giver | null;
}

/** The check, stored or begun on the device, and who gave its answers. */
export async function keptAtHand(
  tx: Tx,
  input: KeptInput,
  context: Context,
  holders: () => Promise<readonly Holder[]>,
): Promise<KeptAtHand> {
  const stored = await checkAtHand(tx, input, context, holders);
  const giver = await giverOf(tx, input.kept, context);
  const began = input.kept?.began;
  if (stored.check || !began || !giver) return { ...stored, isNew: false, giver };
  const holder = await workstationAtHand(began.workstationId, holders);
  const { facilityId } = context.begun.scope;
  const isKnown = began.procedureId !== null && (await findProcedure(tx, facilityId, began.procedureId)) !== null;
  const procedureId = isKnown ? began.procedureId : (holder?.evidence.procedure?.id ?? null);
  const check = { ...begun(input.checkId, began, giver.id, holder), procedureId };
  const procedure = holder && (await procedureOfCheck(tx, facilityId, check, holder));
  return { ...stored, holder, procedure, giver, isNew: true, check };
}

/** The room is taken from the device only when it is a room at hand; otherwise it is not known. */
function begun(
  id: string,
  began: NonNullable<KeptOnDevice["began"]>,
  startedBy: string,
  holder: Holder | null,
): CheckRecord {
  const here = holder?.evidence.room?.id ?? null;
  return {
    id,
    kind: began.kind,
    procedureId: null,
    workstationId: began.workstationId,
    roomId: began.roomId === here ? here : null,
    startedAt: instantOf(began.at),
    startedBy,
    answers: [],
    signatures: [],
  };
}

async function giverOf(tx: Tx, kept: KeptOnDevice | undefined, context: Context): Promise<Giver | null> {
  const { actor, role, begun: frame } = context;
  if (!kept || kept.personId === actor.personId) return { id: actor.personId, name: actor.name, role };
  const found = (await listPeople(tx, frame.scope.facilityId)).find(({ id }) => id === kept.personId);
  return found ? { id: found.id, name: found.name, role: actingRole(found.roles, "record-answers") } : null;
}

/** When each answer was given, by the device's time and the offset that it saw. */
export function decideTimes({ answers, kept }: KeptInput, context: Context): Outcome<readonly KnownTime[], Refusal> {
  const times: KnownTime[] = [];
  for (const [index, { givenAt }] of answers.entries()) {
    if (!kept) {
      times.push({ observedAt: context.now, known: { source: "server" } });
      continue;
    }
    if (givenAt === undefined)
      return refused("invalid", "An answer kept on a device says when it was given.", `answers.${index}.givenAt`);
    const clock = { offsetSeconds: kept.clock.offsetSeconds, contactAt: instantOf(kept.clock.contactAt) };
    const time = decideDeviceTime(instantOf(givenAt), clock, context.now);
    if (!time.ok) return time;
    times.push(time.value);
  }
  return done(times);
}

export interface Unsettled {
  readonly key: string;
  readonly why: string;
}

export interface Settled {
  readonly answers: readonly JudgedAnswer[];
  readonly unsettled: readonly Unsettled[];
}

/**
 * Judges answers that were kept on a device. What was asked there and is not asked any more stays evidence: a failing answer
 * fails, a passing one is noted, and the sender is told what it does not settle.
 */
export function judgeKept(
  given: readonly AnswerInput[],
  asked: readonly CheckItem[],
  place: Evidence,
  roles: readonly Role[],
): Outcome<Settled, Refusal> {
  const { providerAlone } = valuesOf(checkMarks, place);
  const questions = new Map(asked.map((item) => [item.key, item]));
  const answers: JudgedAnswer[] = [];
  const unsettled: Unsettled[] = [];
  for (const [index, one] of given.entries()) {
    const key = answerKey(one.item, one.subject);
    const question = questions.get(key);
    const notTheirs = question ? whyNotAnswered(question, roles, providerAlone) : null;
    if (question && !notTheirs && !answerProblem(question, one.answer)) {
      const judged = judgeAnswers([one], asked, place, roles);
      if (!judged.ok) return judged;
      answers.push(...judged.value);
      continue;
    }
    const problem = question && answerProblem(question, one.answer);
    // What could never be true is no evidence; what is only asked otherwise now, is.
    if (problem && problem.field !== "kind" && problem.field !== "reading.unit")
      return refused("invalid", `${question.title}: ${problem.message}`, `answers.${index}.answer.${problem.field}`);
    const title = question?.title ?? itemOf(one.item).name;
    answers.push({ ...one, key, title, verdict: plainVerdict(one.answer) });
    const why = notTheirs
      ? `${notTheirs} It is still owed.`
      : question
        ? `${title} is asked in another way now, so it is still owed.`
        : `${title} is not asked here any more: the equipment or the procedure has changed since.`;
    unsettled.push({ key, why });
  }
  return done({ answers, unsettled });
}

const plainVerdict = (answer: Answer): Verdict => (answer.kind === "pass" && !answer.passed ? "fail" : "noted");

/** Rows of the answers, each with its own time and the person who gave it. */
export function keptRows(
  { answers, unsettled }: Settled,
  times: readonly KnownTime[],
  check: CheckRecord,
  giver: { readonly id: string; readonly role: Role },
  roomNow: string | null,
  context: Context,
): NewObservation[] {
  const gone = new Set(unsettled.map(({ key }) => key));
  const later = new Map(check.answers.map(({ id, observedAt }) => [id, observedAt]));
  const own = { ...context, role: giver.role, actor: { ...context.actor, personId: giver.id } };
  return observationsOf(answers, { ...check, roomId: roomNow }, own).map((row, index) => {
    const time = times[index] ?? { observedAt: context.now, known: { source: "server" } };
    const before = row.supersedes === null ? undefined : later.get(row.supersedes);
    // What was said about a room stays with the room where the workstation stood.
    const stood = row.roomId !== null && gone.has(answers[index]?.key ?? "") ? (check.roomId ?? roomNow) : row.roomId;
    return {
      ...row,
      ...time,
      roomId: stood,
      recordedBy: context.actor.personId,
      // A message that arrives late does not replace a later answer.
      supersedes: before !== undefined && before > time.observedAt ? null : row.supersedes,
    };
  });
}

/** Stores a check that was begun on the device, by the time that is known of it. */
export async function storeBegun(
  tx: Tx,
  check: CheckRecord,
  times: readonly KnownTime[],
  kept: KeptOnDevice | undefined,
  context: Context,
): Promise<void> {
  const first = Math.min(...times.map(({ observedAt }) => observedAt));
  const clock = kept && { offsetSeconds: kept.clock.offsetSeconds, contactAt: instantOf(kept.clock.contactAt) };
  const began = clock ? decideDeviceTime(check.startedAt, clock, context.now) : null;
  const startedAt = began?.ok && began.value.observedAt <= first ? began.value.observedAt : first;
  await insertCheck(tx, context.begun.scope.facilityId, {
    ...check,
    startedAt: instant(startedAt),
    taskKey: null,
  });
}
