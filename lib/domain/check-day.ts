import {
  addDays,
  dateIn,
  type Instant,
  instantAt,
  instantOf,
  type LocalDate,
  type LocalTime,
  type Timestamp,
  timeIn,
} from "@/lib/units/time";

/** When a facility's check day turns, and until when on the next day a check still counts. */
export interface CheckClock {
  readonly timeZone: string;
  readonly turnsAt: LocalTime;
  readonly goodUntil: LocalTime;
}

/** One check day: [from, to) in time, and the end of validity of what was checked in it. */
export interface CheckDay {
  readonly date: LocalDate;
  readonly from: Instant;
  readonly to: Instant;
  readonly validUntil: Instant;
}

/** Finding a local time costs more than a whole judgement, and the same few days are asked for all the time. */
const MOST_REMEMBERED = 64;
const remembered = new Map<string, CheckDay[]>();
let latest: { readonly clock: CheckClock; readonly day: CheckDay } | null = null;

/**
 * The check day an instant belongs to: the day that began at the last turn of the facility's clocks.
 * A check between midnight and the turn belongs to the night before. Judged on the wall clock, so that on the days when clocks
 * change 03:00 is still the turn.
 */
export function checkDayAt(clock: CheckClock, at: Instant): CheckDay {
  if (latest !== null && latest.clock === clock && holds(latest.day, at)) return latest.day;
  const key = `${clock.timeZone} ${clock.turnsAt} ${clock.goodUntil}`;
  const days = remembered.get(key) ?? [];
  let day = days.find((known) => holds(known, at));
  if (day === undefined) {
    day = findCheckDay(clock, at);
    remembered.set(key, [day, ...days].slice(0, MOST_REMEMBERED));
  }
  latest = { clock, day };
  return day;
}

const holds = ({ from, to }: CheckDay, at: Instant): boolean => from <= at && at < to;

function findCheckDay(clock: CheckClock, at: Instant): CheckDay {
  const today = dateIn(clock.timeZone, at);
  const date = timeIn(clock.timeZone, at) < clock.turnsAt ? addDays(today, -1) : today;
  const day = checkDayOn(clock, date);
  // Where clocks go back over the turn, 03:00 shows twice: the first one turned the day.
  return at >= day.to ? checkDayOn(clock, addDays(date, 1)) : day;
}

/** At the turn of the check day the list is another one, so an answer is looked at again then at the latest. */
export function answerHolds(goodUntil: Timestamp | null, { to }: Pick<CheckDay, "to">): Instant {
  const ends = goodUntil === null ? to : instantOf(goodUntil);
  return ends < to ? ends : to;
}

/** The check day of a date. */
export function checkDayOn(clock: CheckClock, date: LocalDate): CheckDay {
  const next = addDays(date, 1);
  return {
    date,
    from: instantAt(clock.timeZone, date, clock.turnsAt),
    to: instantAt(clock.timeZone, next, clock.turnsAt),
    validUntil: instantAt(clock.timeZone, next, clock.goodUntil),
  };
}
