import { type Day, day } from "@/lib/units/measure";
import type { Calculated, Computed, Refused } from "./calculated";
import { refused } from "./calculated";
import { leastSquaresLine, readingMeets } from "./least-squares";
import { robustLine, type TrendLine } from "./theil-sen";
import {
  FEWEST_READINGS,
  inOrder,
  notEnough,
  type TrendCounts,
  type TrendPoint,
  type TrendRefusal,
  unusablePoints,
} from "./trend-points";

export const TREND_METHODS = ["robust", "least-squares"] as const;
export type TrendMethod = (typeof TREND_METHODS)[number];

export const LIMIT_SIDES = ["falls-below", "rises-above"] as const;
export type LimitSide = (typeof LIMIT_SIDES)[number];

export interface CrossingQuestion {
  readonly points: readonly TrendPoint[];
  readonly limit: number;
  /** Which way a reading goes out of order: reserve falls below, a leak rises above. */
  readonly side: LimitSide;
  readonly method: TrendMethod;
}

export interface Crossing {
  /** Days on the time axis of the readings. */
  readonly at: Day;
  readonly perDay: number;
  /** The line was beyond the limit at the last reading already. */
  readonly passed: boolean;
}

export type CrossingRefusal = TrendRefusal | "no-crossing";

const NAMES: Readonly<Record<TrendMethod, string>> = {
  robust: "median of the slopes between all pairs (Theil-Sen)",
  "least-squares": "least squares",
};
const SOURCES: Readonly<Record<TrendMethod, string>> = {
  robust: "Theil 1950; Sen 1968 (from memory)",
  "least-squares": "textbook regression, Student's t, Fieller's interval",
};
/** A century: further ahead a line through readings of a device says nothing. */
const FURTHEST_DAYS = 36_525;

/**
 * The line through readings over time, with the interval of its slope.
 *
 * in        readings at five different times or more, at most 500; method
 * out       the line; `perDayLow` to `perDayHigh` is the 95 % interval of its slope
 * refuses   too few readings ("not-enough-data", with how many there are and are needed)
 */
export function trendLine(
  points: readonly TrendPoint[],
  method: TrendMethod,
): Calculated<TrendLine, TrendRefusal, TrendCounts> {
  const wrong = unusablePoints(points);
  if (wrong) return wrong;
  const ordered = inOrder(points);
  const line = method === "robust" ? robustLine(ordered) : leastSquaresLine(ordered);
  if (!line) return notEnough(new Set(ordered.map(({ at }) => at)).size, FEWEST_READINGS + 1);
  return {
    ok: true,
    value: line,
    method: NAMES[method],
    uncertainty: { low: line.perDayLow, high: line.perDayHigh, because: "95 % interval of the slope per day" },
    source: SOURCES[method],
  };
}

/**
 * When a slowly changing reading will cross its limit.
 *
 *   crossing = where the line meets the limit
 *
 * in        readings (days, value), limit, which side of it is out of order, method
 * out       the day on the time axis of the readings, the slope, whether the line was past it at the last reading already
 * validity  a change that goes on as it did; the same unit for readings and limit
 * error     95 %: by least squares, where a further reading may meet the limit (exact for normal scatter); by the robust line, the same
 *           with the distribution-free interval of the slope and the scatter of the readings about the line. Of simulated series whose
 *           crossing was told, the interval held the true one in about 95 of 100 from 8 readings on, in 88 of 100 with 5
 * refuses   too few readings; a line that does not go towards the limit, or whose slope is not told from none at 95 %, or that reaches it
 *           in more than a century ("no-crossing")
 * not for   sudden failures: they have no trend
 * source    Theil 1950, Sen 1968; Fieller 1954 for the ratio (from memory)
 */
export function trendCrossing(question: CrossingQuestion): Calculated<Crossing, CrossingRefusal, TrendCounts> {
  const { points, limit, side, method } = question;
  const trend = trendLine(points, method);
  if (!trend.ok) return trend;
  const line = trend.value;
  const towards = side === "falls-below" ? line.perDayHigh < 0 : line.perDayLow > 0;
  if (!towards) return noCrossing(line, side);
  const at = line.at + (limit - line.value) / line.perDay;
  const last = inOrder(points).at(-1)?.at ?? line.at;
  if (!(Math.abs(at - last) <= FURTHEST_DAYS)) return tooFar();
  const interval =
    method === "robust" ? robustInterval(question, line) : readingMeets(leastSquaresLine(inOrder(points)), limit);
  return found({ at: day(at), perDay: line.perDay, passed: at <= last }, interval ?? { from: at, to: at }, method);
}

function found(
  value: Crossing,
  interval: { readonly from: number; readonly to: number },
  method: TrendMethod,
): Computed<Crossing> {
  const because = "95 %: the slope is known to its interval, and readings scatter about the line";
  const within = (at: number) => Math.min(Math.max(at, value.at - 2 * FURTHEST_DAYS), value.at + 2 * FURTHEST_DAYS);
  return {
    ok: true,
    value,
    method: NAMES[method],
    uncertainty: { low: within(interval.from), high: within(interval.to), because },
    source: SOURCES[method],
  };
}

/** Steepest slope from the reading nearest the limit, flattest from the one furthest from it, both about the middle of the readings. */
function robustInterval({ points, limit }: CrossingQuestion, line: TrendLine): { from: number; to: number } {
  const left = inOrder(points).map(({ at, value }) => value - line.value - line.perDay * (at - line.at));
  const scatter = { low: Math.min(...left), high: Math.max(...left) };
  const meets = [line.perDayLow, line.perDayHigh].flatMap((slope) =>
    [scatter.low, scatter.high].map((off) => line.at + (limit - line.value - off) / slope),
  );
  return { from: Math.min(...meets), to: Math.max(...meets) };
}

function noCrossing({ perDay, perDayLow, perDayHigh }: TrendLine, side: LimitSide): Refused<"no-crossing"> {
  const words = side === "falls-below" ? "fall towards it" : "rise towards it";
  const rounded = (slope: number) => String(Number(slope.toPrecision(3)));
  const range = `${rounded(perDayLow)} to ${rounded(perDayHigh)}`;
  return refused("no-crossing", `The readings do not ${words}: ${rounded(perDay)} a day, 95 % interval ${range}.`);
}

const tooFar = (): Refused<"no-crossing"> =>
  refused("no-crossing", "At this slope the limit is more than a century away; that is no forecast.");
