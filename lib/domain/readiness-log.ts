import type { Readiness, Severity } from "@/lib/domain/judgement";
import type { Instant } from "@/lib/units/time";

/** How a room stood from one instant to another, as it was judged then. */
export interface Stood {
  readonly from: Instant;
  /** Null while it still stands so. */
  readonly to: Instant | null;
  /** When the clock would turn it, whatever came first afterwards; absent where nobody asked. */
  readonly goodUntil?: Instant | null;
  readonly state: Readiness;
  /** Ready, or ready with limits that were all allowed and that the list could do without. */
  readonly startable: boolean;
  readonly reasons: readonly {
    readonly rule: string;
    readonly severity: Severity;
    readonly subjectId: string;
    readonly text: string;
  }[];
}

const endOf = ({ to }: Stood): number => to ?? Number.POSITIVE_INFINITY;

/** How it stood at that instant; null before it was ever judged. */
export function stoodAt(log: readonly Stood[], at: Instant): Stood | null {
  return log.find((stood) => stood.from <= at && at < endOf(stood)) ?? null;
}

/** When one room could start on one morning, against its first case. */
export interface RoomMorning {
  /**
   * The beginning of the unbroken stretch in which it could start: the one over its first case, or else the next one. A room that was
   * never out of use since the day before, as one with a case over the night, is ready from the beginning of the day.
   */
  readonly readyAt: Instant | null;
  readonly outcome: "in-time" | "late" | "not-yet" | "never";
  /** Minutes between ready and the first case: positive when there was time left. */
  readonly minutesBefore: number | null;
}

/**
 * in        how the room stood (in order of time, without gaps), the first case, the day, now
 * out       ready in time, late by so many minutes, not yet (the first case is still to come), or never that day
 * not for   judging people: a room may be ready late because its list began late
 */
export function roomMorning(
  log: readonly Stood[],
  firstCase: Instant,
  day: { readonly from: Instant; readonly to: Instant },
  now: Instant,
): RoomMorning {
  const looked = Math.min(firstCase, now) as Instant;
  const then = stoodAt(log, looked);
  if (then?.startable) {
    const readyAt = Math.max(stretchFrom(log, then), day.from) as Instant;
    return { readyAt, outcome: "in-time", minutesBefore: minutesFrom(readyAt, firstCase) };
  }
  if (now < firstCase) return { readyAt: null, outcome: "not-yet", minutesBefore: null };
  const next = log.find(({ from, startable }) => startable && from > firstCase && from < Math.min(day.to, now));
  return next
    ? { readyAt: next.from, outcome: "late", minutesBefore: minutesFrom(next.from, firstCase) }
    : { readyAt: null, outcome: "never", minutesBefore: null };
}

const minutesFrom = (from: Instant, to: Instant): number => Math.round((to - from) / 60_000);

/** Back through everything startable that joins without a gap. */
function stretchFrom(log: readonly Stood[], stood: Stood): Instant {
  let from = stood.from;
  for (;;) {
    const before = log.find(({ to, startable }) => startable && to === from);
    if (!before) return from;
    from = before.from;
  }
}

/** The rules that showed in a stretch of time, each with its severest form. */
export function rulesShown(
  log: readonly Stood[],
  from: Instant,
  to: Instant,
): ReadonlyMap<string, { readonly severity: Severity; readonly minutes: number; readonly text: string }> {
  const shown = new Map<string, { severity: Severity; minutes: number; text: string }>();
  for (const stood of log) {
    const minutes = (Math.min(endOf(stood), to) - Math.max(stood.from, from)) / 60_000;
    if (minutes <= 0) continue;
    const once = new Set<string>();
    for (const { rule, severity, text } of stood.reasons) {
      if (once.has(rule)) continue;
      once.add(rule);
      const known = shown.get(rule);
      if (known) shown.set(rule, { severity: worse(known.severity, severity), minutes: known.minutes + minutes, text });
      else shown.set(rule, { severity, minutes, text });
    }
  }
  return shown;
}

const ORDER: Record<Severity, number> = { out: 0, stops: 1, owed: 2, limits: 3, due: 4, note: 5 };
const worse = (left: Severity, right: Severity): Severity => (ORDER[left] <= ORDER[right] ? left : right);
