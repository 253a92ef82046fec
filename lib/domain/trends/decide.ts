import { type Crossing, type CrossingQuestion, type LimitSide, trendCrossing } from "@/lib/calculations/trend";
import type { TrendPoint } from "@/lib/calculations/trend-points";
import type { Trend } from "@/lib/domain/evidence";
import { readingOf } from "@/lib/domain/far-from-history";
import type { MeasuredAnswer, TrendQuestion } from "@/lib/domain/trends/model";
import { day } from "@/lib/units/measure";
import { type Quantity, quantity, type Unit, valueIn } from "@/lib/units/quantity";
import { DAY, dateIn, type Instant, instantOf, type LocalDate, later } from "@/lib/units/time";

/**
 * From so many on, the interval of the crossing holds what it says (95 of 100 simulated series; 88 with five). With fewer, readings that
 * only scatter look like a slope too often for a board with some hundred series.
 */
const FEWEST_READINGS = 8;
/** Older readings say nothing of where the last ones go. Common practice, no source. */
const REACH_DAYS = 28;
/** Beyond this an end of the interval is no date any more. Common practice, no source. */
const FURTHEST_DAYS = 730;

interface Found {
  readonly crossing: Crossing;
  readonly low: number;
  readonly high: number;
}

/**
 * Where the readings of one item and subject are heading, by the robust line through those of the last 28 days after the last that failed.
 *
 * out       slope a day in the unit of the readings, the date on which the limit is met, and its 95 % interval; null when nothing is
 *           told from chance: fewer than eight readings, no slope, a slope away from the limit, or one that reaches it in over two years
 * validity  a change that goes on as it did. A repair that was no failure first, such as a new hose, breaks the line: its interval then
 *           widens until nothing is told
 * error     see `trendCrossing` of the calculations
 * source    there
 */
export function trendOf(question: TrendQuestion): Trend | null {
  const { item, subject, readings, limits, timeZone } = question;
  const recent = sinceLastFailure(readings);
  const last = recent.at(-1);
  const unit = last && readingOf(last.answer)?.unit;
  if (!last || !unit || !limits) return null;
  const end = instantOf(last.at);
  const points = pointsOf(recent, unit, end);
  if (points.length < FEWEST_READINGS) return null;
  const found =
    towards(points, limits.atLeast, "falls-below", unit) ?? towards(points, limits.atMost, "rises-above", unit);
  if (!found) return null;
  const dateOf = (days: number): LocalDate => dateIn(timeZone, inDays(end, days));
  return {
    item,
    subject,
    slope: quantity(Number(found.crossing.perDay.toPrecision(3)), unit),
    crossing: dateOf(found.crossing.at),
    between: { from: dateOf(found.low), to: found.high > FURTHEST_DAYS ? null : dateOf(found.high) },
  };
}

/** What a row is written for: the answer is another than the one that stands. A trend that ended says so by having no crossing. */
export function trendChange(standing: Trend | null, found: Trend | null, question: TrendQuestion): Trend | null {
  if (found === null)
    return standing && { item: question.item, subject: question.subject, slope: null, crossing: null };
  return standing && sameTrend(standing, found) ? null : found;
}

const sameTrend = (one: Trend, other: Trend): boolean =>
  one.crossing === other.crossing &&
  one.slope?.value === other.slope?.value &&
  one.slope?.unit === other.slope?.unit &&
  one.between?.from === other.between?.from &&
  one.between?.to === other.between?.to;

/** What failed was dealt with, so the readings before it are of another machine. */
function sinceLastFailure(readings: readonly MeasuredAnswer[]): readonly MeasuredAnswer[] {
  const failed = readings.findLastIndex((reading) => reading.failed);
  return readings.slice(failed + 1);
}

/** Days before the last reading, which is at 0. A reading that measures something else than the last is left out. */
function pointsOf(readings: readonly MeasuredAnswer[], unit: Unit, end: Instant): TrendPoint[] {
  return readings.flatMap(({ at, answer }) => {
    const reading = readingOf(answer);
    const value = reading && valueIn(reading, unit);
    const days = (instantOf(at) - end) / DAY;
    return value === null || days < -REACH_DAYS ? [] : [{ at: day(days), value }];
  });
}

function towards(points: readonly TrendPoint[], limit: Quantity | null, side: LimitSide, unit: Unit): Found | null {
  const value = limit && valueIn(limit, unit);
  if (value === null) return null;
  const question: CrossingQuestion = { points, limit: value, side, method: "robust" };
  const crossing = trendCrossing(question);
  if (!crossing.ok || crossing.value.at > FURTHEST_DAYS) return null;
  const { low = crossing.value.at, high = crossing.value.at } = crossing.uncertainty ?? {};
  return { crossing: crossing.value, low, high };
}

/** The last reading held its limit, so a line that met it earlier meets it now. */
const inDays = (end: Instant, days: number): Instant => later(end, Math.round(Math.max(days, 0) * DAY));
