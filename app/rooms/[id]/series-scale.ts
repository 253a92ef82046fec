import type { RoomView } from "@/lib/schemas/room";
import { isPressureUnit, pressureIn } from "@/lib/units/pressure";
import type { Quantity, Unit } from "@/lib/units/quantity";
import { instantOf } from "@/lib/units/time";

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
}

const MARGIN = 12;

/** Readings in the unit of the newest one, spread over their time and between the lowest and the highest value, limits included. */
export function seriesFrame(
  { series, atLeast, atMost }: Part,
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
    return limit && value !== null ? [{ words: `${name} ${said(limit)}`, value }] : [];
  });
  const values = [...readings, ...limits].map(({ value }) => value);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const [first, last] = [instantOf(series[0]?.at ?? newest.at), instantOf(newest.at)];
  const y = (value: number) => (high === low ? 50 : MARGIN + ((100 - 2 * MARGIN) * (high - value)) / (high - low));
  return {
    unit,
    dots: readings.map(({ at, value, failed }) => ({
      at,
      x: last === first ? 50 : 2 + (96 * (instantOf(at) - first)) / (last - first),
      y: y(value),
      failed,
    })),
    limits: limits.map(({ words, value }) => ({ words, y: y(value) })),
  };
}

function inUnit({ value, unit }: Quantity, wanted: Unit): number | null {
  if (unit === wanted) return value;
  return isPressureUnit(unit) && isPressureUnit(wanted) ? pressureIn(value, unit, wanted) : null;
}
