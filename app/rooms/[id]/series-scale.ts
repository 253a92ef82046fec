import type { RoomView } from "@/lib/schemas/room";
import { isPressureUnit, pressureIn } from "@/lib/units/pressure";
import type { Quantity, Unit } from "@/lib/units/quantity";
import { DAY, instantOf } from "@/lib/units/time";

type Part = RoomView["parts"][number];

export interface SeriesDot {
  readonly at: string;
  /** Percent of the frame, from the left and from the top. */
  readonly x: number;
  readonly y: number;
  readonly failed: boolean;
}

export interface SeriesFrame {
  readonly unit: Unit;
  readonly dots: readonly SeriesDot[];
  /** The limits, where they lie inside the frame. */
  readonly limits: readonly { readonly words: string; readonly y: number }[];
  /** Where the trend goes on to, and the interval in which it meets its limit. */
  readonly ahead: {
    readonly from: { readonly x: number; readonly y: number };
    readonly to: { readonly x: number; readonly y: number };
    readonly between: { readonly left: number; readonly right: number; readonly y: number };
  } | null;
  readonly end: string;
}

const MARGIN = 12;
/** A forecast further ahead would press the readings into a corner; the line then leaves the frame. */
const FURTHEST_AHEAD = 30 * DAY;
const noonOf = (date: string): number => Date.parse(`${date}T12:00:00Z`);

/** Readings in the unit of the newest one, spread over their time and between the lowest and the highest value, limits included. */
export function seriesFrame(
  { series, atLeast, atMost, trend }: Part,
  said: (quantity: Quantity) => string,
): SeriesFrame | null {
  const newest = series.at(-1);
  if (!newest || series.length < 2) return null;
  const { unit } = newest.reading;
  const readings = series.flatMap(({ at, reading, failed }) => {
    const value = inUnit(reading, unit);
    return value === null ? [] : [{ at, value, failed }];
  });
  const limits = [
    { name: "at least", limit: atLeast },
    { name: "at most", limit: atMost },
  ].flatMap(({ name, limit }) => {
    const value = limit && inUnit(limit, unit);
    return limit && value !== null ? [{ name, words: `${name} ${said(limit)}`, value }] : [];
  });
  const values = [...readings, ...limits].map(({ value }) => value);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const [first, last] = [instantOf(series[0]?.at ?? newest.at), instantOf(newest.at)];
  const end = trend ? Math.max(last, Math.min(noonOf(trend.crossing), last + FURTHEST_AHEAD)) : last;
  const x = (at: number) => (end === first ? 50 : 2 + (96 * (at - first)) / (end - first));
  const y = (value: number) => (high === low ? 50 : MARGIN + ((100 - 2 * MARGIN) * (high - value)) / (high - low));
  return {
    unit,
    dots: readings.map(({ at, value, failed }) => ({
      at,
      x: x(instantOf(at)),
      y: y(value),
      failed,
    })),
    limits: limits.map(({ words, value }) => ({ words, y: y(value) })),
    ahead: trend && aheadOf(trend, { last, end, x, y }, readings.at(-1)?.value ?? null, limits),
    end: new Date(end).toISOString(),
  };
}

interface Scale {
  readonly last: number;
  readonly end: number;
  readonly x: (at: number) => number;
  readonly y: (value: number) => number;
}

function aheadOf(
  { crossing, from, to, slope }: NonNullable<Part["trend"]>,
  { last, end, x, y }: Scale,
  value: number | null,
  limits: readonly { readonly name: string; readonly value: number }[],
): SeriesFrame["ahead"] {
  const limit = limits.find(({ name }) => name === (slope.value < 0 ? "at least" : "at most"));
  if (value === null || !limit) return null;
  const inside = (at: number) => Math.min(100, Math.max(0, x(at)));
  const meets = Math.max(noonOf(crossing), last);
  const shown = Math.min(meets, end);
  const share = meets === last ? 1 : (shown - last) / (meets - last);
  return {
    from: { x: x(last), y: y(value) },
    to: { x: x(shown), y: y(value + (limit.value - value) * share) },
    between: {
      left: inside(Math.max(noonOf(from), last)),
      right: to === null ? 100 : inside(noonOf(to)),
      y: y(limit.value),
    },
  };
}

function inUnit({ value, unit }: Quantity, wanted: Unit): number | null {
  if (unit === wanted) return value;
  return isPressureUnit(unit) && isPressureUnit(wanted) ? pressureIn(value, unit, wanted) : null;
}
