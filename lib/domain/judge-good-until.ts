import type { Finding, Judgement, Mark } from "@/lib/domain/judgement";
import { type Instant, type Timestamp, timestampOf } from "@/lib/units/time";

/** A judgement at one moment, and the later moments at which the clock alone might change it. */
export interface Judged {
  readonly judgement: Omit<Judgement, "goodUntil">;
  readonly moments: readonly Instant[];
}

/** After so many turns of the clock without a change the last one is answered: judging again too early is only work. */
const MOST_TURNS = 200;

/**
 * The earliest moment at which the clock alone changes the answer. Exact: every moment at which any part of the answer may
 * turn is judged again, in order, until one differs; null when none does.
 */
export function goodUntil(first: Judged, judgeAt: (at: Instant) => Judged): Timestamp | null {
  let waiting = first.moments;
  for (let turn = 1; ; turn += 1) {
    const next = earliest(waiting);
    if (next === null) return null;
    const then = judgeAt(next);
    if (turn === MOST_TURNS || !saysTheSame(first.judgement, then.judgement)) return timestampOf(next);
    waiting = [...waiting, ...then.moments].filter((moment) => moment > next);
  }
}

function earliest(moments: readonly Instant[]): Instant | null {
  let found: Instant | null = null;
  for (const moment of moments) if (found === null || moment < found) found = moment;
  return found;
}

/** Everything that a reader could act upon: state, marks, reasons as they read, limits, what is owed. */
function saysTheSame(one: Judged["judgement"], other: Judged["judgement"]): boolean {
  return (
    one.state === other.state &&
    one.readyForList === other.readyForList &&
    one.whenInUse === other.whenInUse &&
    sameMark(one.marks.equipment, other.marks.equipment) &&
    sameMark(one.marks.provider, other.marks.provider) &&
    sameList(one.reasons, other.reasons, sameFinding) &&
    sameList(one.limits, other.limits, Object.is) &&
    sameList(
      one.owed,
      other.owed,
      (left, right) =>
        left.item === right.item && left.because === right.because && left.subject.id === right.subject.id,
    )
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
