import type { Day } from "@/lib/units/measure";
import { type Refused, refused } from "./calculated";
import { outOfRange } from "./within";

/** A reading and when it was taken, in days from any beginning. */
export interface TrendPoint {
  readonly at: Day;
  readonly value: number;
}

export type TrendRefusal = "out-of-range" | "not-enough-data" | "too-many-readings";
export interface TrendCounts {
  /** Readings at different times, given and needed. */
  readonly have: number;
  readonly need: number;
}

/** With fewer, not even readings that all rise give a slope that is told from chance at 95 %. */
export const FEWEST_READINGS = 5;
const MOST_READINGS = 500;
/** About a second: readings nearer to each other were taken at one time. */
const TIMES_PER_DAY = 1e5;

/** In order of time, so that the order in which they were given changes nothing. */
export function inOrder(points: readonly TrendPoint[]): TrendPoint[] {
  return points
    .map((point) => ({ ...point, at: (Math.round(point.at * TIMES_PER_DAY) / TIMES_PER_DAY) as Day }))
    .sort((one, other) => one.at - other.at || one.value - other.value);
}

export function unusablePoints(points: readonly TrendPoint[]): Refused<TrendRefusal, TrendCounts> | null {
  if (points.length > MOST_READINGS) {
    return refused("too-many-readings", `${points.length} readings are too many; give the last ${MOST_READINGS}.`);
  }
  const outside = outOfRange(
    points.flatMap(({ at, value }, index) => [
      { name: `The time of reading ${index + 1}`, value: at, unit: "days", from: -1e6, to: 1e6 },
      { name: `The value of reading ${index + 1}`, value, unit: "", from: -1e12, to: 1e12 },
    ]),
  );
  if (outside) return outside;
  const have = new Set(inOrder(points).map(({ at }) => at)).size;
  return have < FEWEST_READINGS ? notEnough(have, FEWEST_READINGS) : null;
}

export function notEnough(have: number, need: number): Refused<TrendRefusal, TrendCounts> {
  const message = `There are readings at ${have} different times; a trend needs at least ${need}.`;
  return { ...refused("not-enough-data", message), have, need };
}
