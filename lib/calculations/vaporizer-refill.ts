import { type Hour, hour, type Millilitre, type MillilitrePerHour, type Minute, minute } from "@/lib/units/measure";
import { type Calculated, type Computed, type Refused, refused, type Uncertainty } from "./calculated";
import { outOfRange } from "./within";

export interface VaporizerFill {
  /** Liquid in the vaporizer now. */
  readonly liquid: Millilitre;
  /** Liquid that stays: the refill mark, or 0 for empty. */
  readonly mark: Millilitre;
  /** From `vaporizerUse`. */
  readonly use: MillilitrePerHour;
  /** The range of the use, from `vaporizerUse`; null when it is taken as exact. */
  readonly useRange: Uncertainty | null;
}

export type RefillRefusal = "out-of-range" | "no-consumption";

const LARGEST_VAPORIZER_ML = 2_000;
const LARGEST_USE_ML_PER_HOUR = 50_000;
const METHOD = "liquid above the mark over use";
const SOURCE = "arithmetic: volume over rate";

/**
 * Hours until the liquid reaches the mark.
 *
 *   hours = (liquid - mark) / use
 *
 * in        liquid and mark (mL), use (mL/h) with its range
 * out       hours; 0 when the liquid is at the mark or below it, never negative
 * error     that of the use, and of reading the sight glass (not counted)
 * refuses   no use (nothing is consumed, so no time is the answer), a volume or a use that cannot be
 * source    arithmetic
 */
export function vaporizerHoursLeft(fill: VaporizerFill): Calculated<Hour, RefillRefusal> {
  const minutes = vaporizerMinutesLeft(fill);
  if (!minutes.ok) return minutes;
  const { uncertainty } = minutes;
  return {
    ...minutes,
    value: hour(minutes.value / 60),
    uncertainty: uncertainty && { ...uncertainty, low: uncertainty.low / 60, high: uncertainty.high / 60 },
  };
}

/** The same in minutes, for "refill in 25 min". Formula, error and refusals of `vaporizerHoursLeft`. */
export function vaporizerMinutesLeft(fill: VaporizerFill): Calculated<Minute, RefillRefusal> {
  return unusable(fill) ?? untilMark(fill);
}

function untilMark({ liquid, mark, use, useRange }: VaporizerFill): Computed<Minute> {
  const above = Math.max(0, liquid - mark);
  const known = useRange !== null && useRange.low > 0;
  return {
    ok: true,
    value: minute((above / use) * 60),
    method: METHOD,
    uncertainty: known
      ? { low: (above / useRange.high) * 60, high: (above / useRange.low) * 60, because: useRange.because }
      : null,
    source: SOURCE,
  };
}

function unusable({ liquid, mark, use }: VaporizerFill): Refused<RefillRefusal> | null {
  const outside = outOfRange([
    { name: "The liquid", value: liquid, unit: "mL", from: 0, to: LARGEST_VAPORIZER_ML },
    { name: "The mark", value: mark, unit: "mL", from: 0, to: LARGEST_VAPORIZER_ML },
    { name: "The use", value: use, unit: "mL/h", from: 0, to: LARGEST_USE_ML_PER_HOUR },
  ]);
  if (outside) return outside;
  if (use > 1e-9) return null;
  return refused("no-consumption", "Nothing is used, so there is no time until the refill. Give a use above 0 mL/h.");
}
