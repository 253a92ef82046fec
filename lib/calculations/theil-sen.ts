import type { Day } from "@/lib/units/measure";
import { slopesOutside } from "./kendall";
import type { TrendPoint } from "./trend-points";

/** A line through readings: `value` at `at`, and its slope with the range in which the true one lies at 95 %. */
export interface TrendLine {
  readonly at: Day;
  readonly value: number;
  readonly perDay: number;
  readonly perDayLow: number;
  readonly perDayHigh: number;
}

/**
 * The robust line: the median of the slopes between all pairs of readings, through the median time, at the median of what is left. Up to 29 % of the readings may be
 * wild without moving it far. Null when the readings cannot give an interval.
 *
 * in        readings in order of time, at five different times or more
 * out       line and interval of its slope
 * error     the interval: distribution-free, at least 95 % (see `slopesOutside`)
 * source    Theil 1950; Sen, J Am Stat Assoc 1968;63:1379 (both from memory)
 */
export function robustLine(points: readonly TrendPoint[]): TrendLine | null {
  const slopes = pairSlopes(points);
  const outside = slopesOutside(
    points.map(({ at }) => at),
    slopes.length,
  );
  if (outside === null || outside * 2 >= slopes.length) return null;
  const perDay = median(slopes);
  const at = median(points.map((point) => point.at)) as Day;
  const level = points.map((point) => point.value - perDay * (point.at - at)).sort((one, other) => one - other);
  return {
    at,
    value: median(level),
    perDay,
    perDayLow: slopes[outside] ?? perDay,
    perDayHigh: slopes[slopes.length - 1 - outside] ?? perDay,
  };
}

/** The slopes between readings at different times, smallest first. */
function pairSlopes(points: readonly TrendPoint[]): Float64Array {
  const slopes: number[] = [];
  points.forEach((later, index) => {
    for (const earlier of points.slice(0, index)) {
      if (later.at > earlier.at) slopes.push((later.value - earlier.value) / (later.at - earlier.at));
    }
  });
  return Float64Array.from(slopes).sort();
}

/** Of values in order. */
export function median(ordered: ArrayLike<number>): number {
  const middle = ordered.length / 2;
  const low = ordered[Math.ceil(middle) - 1] ?? 0;
  const high = ordered[Math.floor(middle)] ?? 0;
  return low + (high - low) / 2;
}
