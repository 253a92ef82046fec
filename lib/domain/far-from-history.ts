import type { Answer } from "@/lib/domain/answer";
import { numeral } from "@/lib/domain/wording";
import { type Quantity, quantity, type Unit, valueIn } from "@/lib/units/quantity";

/** What readings of one item and subject usually are: robust figures, which one slip among them does not move. */
export interface Usual {
  readonly unit: Unit;
  readonly count: number;
  readonly median: number;
  /** Median absolute deviation from the median, in the same unit. */
  readonly spread: number;
  /** The smallest deviation that means anything here: a share of the median, or of the item's own limit where that is larger. */
  readonly least: number;
}

/** Why somebody is asked "sure?", and the unit that the figure would fit. */
export interface FarReading {
  readonly text: string;
  readonly unit: Unit | null;
}

/** Fewer readings are no history. Common practice, no source. */
const FEWEST = 4;
/** How many deviations are far, and the least deviation as a share of the median. Common practice, no source. */
const FAR = 8;
const LEAST_SHARE = 0.1;
/** Median absolute deviation to standard deviation, for a normal spread: 1 / 0.6745. */
const TO_DEVIATION = 1.4826;
/** A figure in another unit lands within this share of what is usual. Common practice, no source. */
const SLIP_SHARE = 0.25;
const SLIPS: readonly Unit[] = ["psi", "kPa", "bar"];

/**
 * The usual of earlier readings, each taken into `unit`; null when too few can be compared. Any readings, in any order. Beside a limit
 * of 50 mL/min a leak of 10 after many of 5 is nothing to ask about, so the limit, where there is one, sets the scale.
 */
export function usualOf(readings: readonly Quantity[], unit: Unit, limit: Quantity | null): Usual | null {
  const values = readings.flatMap((reading) => valueIn(reading, unit) ?? []);
  if (values.length < FEWEST) return null;
  const median = middleOf(values);
  const scale = Math.max(Math.abs(median), Math.abs((limit && valueIn(limit, unit)) ?? 0));
  return {
    unit,
    count: values.length,
    median,
    spread: middleOf(values.map((value) => Math.abs(value - median))),
    least: LEAST_SHARE * scale,
  };
}

/** The limit that sets the scale of an item's readings: the one they may not exceed, or else the one they must reach. */
export const scaleOf = (limits: { readonly atLeast: Quantity | null; readonly atMost: Quantity | null } | null) =>
  limits?.atMost ?? limits?.atLeast ?? null;

/**
 * Is a reading so far from its history that a slip is likelier than the truth? Null when it is not, or when nothing is known. Far:
 * more than 8 deviations (1.4826 x median absolute deviation, at least 10 % of the median or of the limit) away. Valid for readings of one sign in
 * units that compare; it only asks, and never refuses a reading that is confirmed.
 */
export function farFromHistory(reading: Quantity, usual: Usual | null): FarReading | null {
  const value = usual && valueIn(reading, usual.unit);
  if (usual === null || value === null) return null;
  const deviation = Math.max(TO_DEVIATION * usual.spread, usual.least);
  if (Math.abs(value - usual.median) <= FAR * deviation) return null;
  const slip = slipOf(reading, usual);
  const here = valueIn(quantity(usual.median, usual.unit), reading.unit) ?? usual.median;
  const asUsual = `${numeral(tidy(here))} ${reading.unit} is usual here`;
  const said = `${numeral(reading.value)} ${reading.unit}? ${asUsual}.`;
  return { text: slip ? `${said} It looks like a figure in ${slip}.` : said, unit: slip };
}

/** The unit in which the same figure would be near the usual. */
function slipOf(reading: Quantity, usual: Usual): Unit | null {
  const near = (unit: Unit): boolean => {
    const value = valueIn(quantity(reading.value, unit), usual.unit);
    return value !== null && Math.abs(value - usual.median) <= SLIP_SHARE * Math.abs(usual.median);
  };
  return SLIPS.find((unit) => unit !== reading.unit && near(unit)) ?? null;
}

function middleOf(values: readonly number[]): number {
  const sorted = [...values].sort((left, right) => left - right);
  const half = Math.floor(sorted.length / 2);
  const upper = sorted[half] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? upper) + upper) / 2;
}

/** Three figures are enough for a comparison. */
const tidy = (value: number): number => Number(value.toPrecision(3));

/** What an answer measured; null for one without a figure. A gauge read with its valve shut says nothing of the contents. */
export function readingOf(answer: Answer): Quantity | null {
  if (answer.kind === "number") return answer.reading;
  return answer.kind === "gauge" && answer.openWhenRead ? answer.reading : null;
}
