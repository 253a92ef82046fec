import { day } from "@/lib/units/measure";
import { t95 } from "./student-t";
import type { TrendLine } from "./theil-sen";
import type { TrendPoint } from "./trend-points";

/** The line of least squares with what its prediction interval needs. */
export interface LeastSquaresLine extends TrendLine {
  readonly count: number;
  /** Sum of squared distances of the times from their mean, in square days. */
  readonly spread: number;
  /** t x standard deviation of the readings about the line. */
  readonly reach: number;
}

/**
 * The line of least squares.
 *
 *   slope = sum((x - mx)(y - my)) / sum((x - mx)^2)       interval of the slope: slope +/- t x s / sqrt(sum((x - mx)^2))
 *
 * in        readings in order of time, at five different times or more
 * validity  readings that scatter evenly and by chance about a straight line; one wild reading moves it (the robust line does not mind)
 * error     the 95 % interval of the slope, and `predictedWithin` for a further reading
 * source    textbook regression; Student's t
 */
export function leastSquaresLine(points: readonly TrendPoint[]): LeastSquaresLine {
  const count = points.length;
  const meanAt = sum(points.map(({ at }) => at)) / count;
  const mean = sum(points.map(({ value }) => value)) / count;
  const spread = sum(points.map(({ at }) => (at - meanAt) ** 2));
  const perDay = sum(points.map(({ at, value }) => (at - meanAt) * (value - mean))) / spread;
  const left = sum(points.map(({ at, value }) => (value - mean - perDay * (at - meanAt)) ** 2));
  const reach = t95(count - 2) * Math.sqrt(left / (count - 2));
  const off = reach / Math.sqrt(spread);
  return {
    at: day(meanAt),
    value: mean,
    perDay,
    perDayLow: perDay - off,
    perDayHigh: perDay + off,
    count,
    spread,
    reach,
  };
}

/** How far from the line, at a time, a single further reading may lie (95 %). */
export function predictedWithin({ reach, count, spread, at }: LeastSquaresLine, time: number): number {
  return reach * Math.sqrt(1 + 1 / count + (time - at) ** 2 / spread);
}

/**
 * First and last time at which a further reading may meet the limit (95 %): where the limit leaves the prediction interval of the line.
 * Exact, by the quadratic of Fieller; null when the slope is not told from none.
 */
export function readingMeets(
  line: LeastSquaresLine,
  limit: number,
): { readonly from: number; readonly to: number } | null {
  const { at, value, perDay, reach, count, spread } = line;
  const gap = value - limit;
  const square = perDay ** 2 - reach ** 2 / spread;
  if (!(square > 0)) return null;
  const half = perDay * gap;
  const root = reach * Math.sqrt(gap ** 2 / spread + (1 + 1 / count) * square);
  return { from: at + (-half - root) / square, to: at + (-half + root) / square };
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
