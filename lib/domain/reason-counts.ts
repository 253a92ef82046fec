import type { Severity } from "@/lib/domain/judgement";
import { rulesShown, type Stood } from "@/lib/domain/readiness-log";
import { HOUR, type Instant, type LocalDate } from "@/lib/units/time";

interface Day {
  readonly date: LocalDate;
  readonly from: Instant;
  readonly to: Instant;
}

interface RoomLog {
  readonly roomId: string;
  readonly log: readonly Stood[];
}

/** How often one rule gave a reason: room-days, hours, and how long it took until it was gone. */
export interface ReasonCount {
  readonly rule: string;
  readonly severity: Severity;
  readonly roomDays: number;
  readonly hours: number;
  readonly hoursToCleared: number | null;
  readonly byDay: ReadonlyMap<LocalDate, number>;
  readonly byRoom: ReadonlyMap<string, { readonly days: number; readonly text: string }>;
}

interface Tally {
  rule: string;
  severity: Severity;
  roomDays: number;
  minutes: number;
  byDay: Map<LocalDate, number>;
  byRoom: Map<string, { days: number; text: string }>;
}

/** Every rule that showed in these days, the most frequent first; a day that has not come yet is not counted. */
export function reasonCounts(rooms: readonly RoomLog[], days: readonly Day[], now: Instant): ReasonCount[] {
  const tallies = new Map<string, Tally>();
  for (const { roomId, log } of rooms) {
    for (const { date, from, to } of days) {
      for (const [rule, shown] of rulesShown(log, from, Math.min(to, now) as Instant)) {
        const known = tallies.get(rule);
        const tally = known ?? newTally(rule, shown.severity);
        tallies.set(rule, tally);
        tally.roomDays += 1;
        tally.minutes += shown.minutes;
        tally.byDay.set(date, (tally.byDay.get(date) ?? 0) + 1);
        tally.byRoom.set(roomId, { days: (tally.byRoom.get(roomId)?.days ?? 0) + 1, text: shown.text });
      }
    }
  }
  return [...tallies.values()]
    .map(({ minutes, ...tally }) => ({
      ...tally,
      hours: minutes / 60,
      hoursToCleared: meanHoursToCleared(rooms, tally.rule),
    }))
    .sort((left, right) => right.roomDays - left.roomDays || (left.rule < right.rule ? -1 : 1));
}

const newTally = (rule: string, severity: Severity): Tally => ({
  rule,
  severity,
  roomDays: 0,
  minutes: 0,
  byDay: new Map(),
  byRoom: new Map(),
});

/** Mean time from appearing to gone, over the stretches whose beginning and end both lie in the log. */
function meanHoursToCleared(rooms: readonly RoomLog[], rule: string): number | null {
  const spans = rooms.flatMap(({ log }) => spansOf(log, rule));
  return spans.length === 0 ? null : spans.reduce((sum, span) => sum + span, 0) / spans.length / HOUR;
}

function spansOf(log: readonly Stood[], rule: string): number[] {
  const spans: number[] = [];
  let since: number | null = null;
  let before: boolean | null = null;
  for (const stood of log) {
    const shows = stood.reasons.some((reason) => reason.rule === rule);
    // What the log begins with has begun earlier: nobody knows when.
    if (shows && before === false) since = stood.from;
    if (!shows && since !== null) spans.push(stood.from - since);
    if (!shows) since = null;
    before = shows;
  }
  return spans;
}
