import type { BoardRow } from "@/lib/schemas/board";
import { HOUR, type Instant, instantOf, later, MINUTE, offsetAt } from "@/lib/units/time";

/** The stretch of the morning that every strip shows, so that rooms can be compared by eye. */
export interface StripScale {
  readonly from: Instant;
  readonly to: Instant;
  readonly now: Instant;
  readonly ticks: readonly Instant[];
}

const STEP = 30 * MINUTE;
const BEHIND = 15 * MINUTE;
const LENGTH = 3 * HOUR;

/** Begins a little before now, on a half hour of the facility's clock, so that it moves in steps and not under the eye. */
export function stripScale(now: Instant, zone: string): StripScale {
  const offset = offsetAt(now, zone);
  const from = later(now, -BEHIND);
  const aligned = later(from, -((((from + offset) % STEP) + STEP) % STEP));
  const ticks: Instant[] = [];
  for (let at = STEP; at < LENGTH; at += STEP) ticks.push(later(aligned, at));
  return { from: aligned, to: later(aligned, LENGTH), now, ticks };
}

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
