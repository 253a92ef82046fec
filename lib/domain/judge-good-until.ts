import { type JudgeContext, type Moment, NOBODY } from "@/lib/domain/judge-context";
import { findingsOfRule, isMinor } from "@/lib/domain/judge-findings";
import type { Finding, Judgement, Mark } from "@/lib/domain/judgement";
import { type Instant, type Timestamp, timestampOf } from "@/lib/units/time";

/** What is said at one moment. */
export type Judged = Omit<Judgement, "goodUntil">;

/** After so many turns of the clock without a change the last one is answered: judging again too early is only work. */
const MOST_TURNS = 200;

/**
 * The earliest moment at which the clock alone changes the answer. Exact: every moment at which any part of the answer may
 * turn is judged again, in order, until one differs; null when none does. Most rooms change by what they owe, which is known
 * before any rule is asked; and where all looks stand as before, only the rules that named the moment can say anything else.
 */
export function goodUntil(
  context: JudgeContext,
  told: Judged,
  contextAt: (at: Instant) => JudgeContext,
  judgementAt: (context: JudgeContext) => Judged,
): Timestamp | null {
  let waiting: readonly Moment[] = context.moments;
  for (let turn = 1; ; turn += 1) {
    const next = earliest(waiting);
    if (next === null) return null;
    const then = contextAt(next);
    if (turn === MOST_TURNS || !owesTheSame(told, then)) return timestampOf(next);
    const changed = changedByRules(waiting, next, context, then) ?? !saysTheSame(told, judgementAt(then));
    if (changed) return timestampOf(next);
    waiting = [...waiting, ...then.moments].filter(({ at }) => at > next);
  }
}

/** Does what the rules of that moment say differ? Null when that cannot be told from them alone. */
function changedByRules(
  waiting: readonly Moment[],
  next: Instant,
  context: JudgeContext,
  then: JudgeContext,
): boolean | null {
  const named = waiting.filter(({ at }) => at === next).map(({ by }) => by);
  if (named.includes(NOBODY) || !context.standsAs(then)) return null;
  let minorDiffers = false;
  for (const place of new Set(named)) {
    const before = findingsOfRule(place, context);
    const after = findingsOfRule(place, then);
    if (sameList(before, after, sameFinding)) continue;
    if (!sameList(before.filter(isGrave), after.filter(isGrave), sameFinding)) return true;
    minorDiffers = true;
  }
  return minorDiffers ? null : false;
}

const isGrave = (finding: Finding): boolean => !isMinor(finding);

function owesTheSame(told: Judged, then: JudgeContext): boolean {
  const owed = then.owed();
  return told.owed.length === owed.length && told.owed.every((one, place) => sameOwed(one, owed[place]));
}

const sameOwed = (one: Judgement["owed"][number], other: Judgement["owed"][number] | undefined): boolean =>
  one.item === other?.item && one.because === other.because && one.subject.id === other.subject.id;

function earliest(moments: readonly Moment[]): Instant | null {
  let found: Instant | null = null;
  for (const { at } of moments) if (found === null || at < found) found = at;
  return found;
}

/** Everything else that a reader could act upon: state, marks, reasons as they read, limits. */
function saysTheSame(one: Judged, other: Judged): boolean {
  return (
    one.state === other.state &&
    one.readyForList === other.readyForList &&
    one.whenInUse === other.whenInUse &&
    sameMark(one.marks.equipment, other.marks.equipment) &&
    sameMark(one.marks.provider, other.marks.provider) &&
    sameList(one.reasons, other.reasons, sameFinding) &&
    sameList(one.limits, other.limits, Object.is)
  );
}

const sameMark = (one: Mark | null, other: Mark | null): boolean => one?.at === other?.at && one?.by === other?.by;

const sameFinding = (one: Finding, other: Finding): boolean =>
  one.rule === other.rule &&
  one.severity === other.severity &&
  one.subject.id === other.subject.id &&
  one.text === other.text &&
  one.allowedUntil === other.allowedUntil;

function sameList<One>(left: readonly One[], right: readonly One[], same: (left: One, right: One) => boolean): boolean {
  return left.length === right.length && left.every((one, place) => same(one, right[place] as One));
}
