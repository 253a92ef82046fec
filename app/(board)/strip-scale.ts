import type { BoardRow } from "@/lib/schemas/board";
import { dateIn, HOUR, type Instant, instantAt, instantOf, later, localTime, MINUTE, offsetAt } from "@/lib/units/time";

/** The stretch of the morning that every strip shows, so that rooms can be compared by eye. */
export interface StripScale {
  readonly from: Instant;
  readonly to: Instant;
  readonly now: Instant;
  readonly ticks: readonly Instant[];
}

const STEP = 30 * MINUTE;
const BEHIND = 30 * MINUTE;
/** After the last first case there is room for its hour to be written. */
const AHEAD = 30 * MINUTE;
const SHORTEST = 3 * HOUR;
const LONGEST = 6 * HOUR;
/** The hour at which nights end on the board: before it the strip waits at the coming morning. */
const MORNING = localTime("05:00");

/** From a little before now to the last first case of the morning, on half hours of the facility's clock, so that it moves in steps. */
export function stripScale(now: Instant, zone: string, firstCases: readonly Instant[]): StripScale {
  const dawn = instantAt(zone, dateIn(zone, now), MORNING);
  const from = now < dawn ? dawn : onHalfHour(later(now, -BEHIND), zone);
  const inReach = firstCases.filter((at) => at >= from && at <= from + LONGEST - AHEAD);
  const last = later(onHalfHour(Math.max(from, ...inReach) as Instant, zone), AHEAD + STEP);
  const to = last - from < SHORTEST ? later(from, SHORTEST) : last;
  const step = to - from > 4 * HOUR ? 2 * STEP : STEP;
  const ticks: Instant[] = [];
  for (let at = later(from, step); at < to; at = later(at, step)) ticks.push(at);
  return { from, to, now, ticks };
}

function onHalfHour(at: Instant, zone: string): Instant {
  const local = at + offsetAt(at, zone);
  return later(at, -(((local % STEP) + STEP) % STEP));
}

/** The first cases that are still to come, of the rooms that run. */
export const firstCasesOf = (rooms: readonly BoardRow[]): Instant[] =>
  rooms.flatMap(({ firstCase, occupancy }) => (firstCase && occupancy.state === "idle" ? [instantOf(firstCase)] : []));

/** Where a moment stands on the strip, in percent of its width. */
export function place(scale: StripScale, at: Instant): number {
  return (100 * (at - scale.from)) / (scale.to - scale.from);
}

export const percent = (value: number): string => `${Math.round(value * 100) / 100}%`;

export const inSight = (scale: StripScale, at: Instant): boolean => at >= scale.from && at <= scale.to;

export interface StripBlock {
  readonly key: string;
  readonly label: string;
  readonly from: Instant;
  readonly to: Instant;
  /** Somebody is on it; otherwise it only shows how long it would take from now. */
  readonly claimed: boolean;
}

/** The planned work of a room, one after the other: what is begun from when it was claimed, the rest from now on. */
export function workBlocks(work: BoardRow["work"], now: Instant): StripBlock[] {
  let free = now;
  return [...work]
    .sort((left, right) => Number(right.claimedAt !== null) - Number(left.claimedAt !== null))
    .map(({ taskKey, minutes, person, claimedAt }) => {
      const from = claimedAt ? instantOf(claimedAt) : free;
      const planned = later(from, minutes * MINUTE);
      const to = planned > now ? planned : later(now, 2 * MINUTE);
      if (to > free) free = to;
      return {
        key: taskKey,
        label: person ? initials(person) : `${minutes} min`,
        from,
        to,
        claimed: claimedAt !== null,
      };
    });
}

/** When the last of the work would be done; null without work. */
export function workEnd(blocks: readonly StripBlock[]): Instant | null {
  return blocks.reduce<Instant | null>((end, { to }) => (end === null || to > end ? to : end), null);
}

function initials(name: string): string {
  return name
    .split(/\s+/)
    .map((word) => [...word][0] ?? "")
    .join("");
}
