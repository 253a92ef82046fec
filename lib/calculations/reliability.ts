import { type Day, day, type Hour, type Percent, percent } from "@/lib/units/measure";
import { type Calculated, type Refused, refused } from "./calculated";
import { gammaQuantile } from "./gamma-function";
import { notWhole, outOfRange } from "./within";

const LARGEST_DAYS = 1e8;
const CONFIDENCE = 0.95;
const DAYS_PER_YEAR = 365.25;

export type MtbfRefusal = "out-of-range" | "no-failures";

/**
 * Mean time between failures.
 *
 *   MTBF = operating time / failures
 *
 * in        operating time of all devices together (days), failures in it
 * out       days, with the one-sided 95 % limits below and above (so the two enclose 90 %): 2T / chi-square, 2r + 2 and 2r degrees
 * validity  a constant failure rate; observation ended at a date, not at a failure
 * error     the limits; few failures make them wide
 * refuses   no failures ("no-failures"): there is no mean yet, only a lower limit, which the refusal carries as `atLeast`
 * source    definition; limits as in reliability texts (from memory), they give the published 1,123 days of Dexter et al. 1997,
 *           doi 10.1023/a:1007302030065
 */
export function meanTimeBetweenFailures(
  operating: Day,
  failures: number,
): Calculated<Day, MtbfRefusal, { readonly atLeast: Day }> {
  const wrong =
    outOfRange([{ name: "The operating time", value: operating, unit: "days", from: 0.001, to: LARGEST_DAYS }]) ??
    notWhole([{ name: "The number of failures", value: failures, unit: "", from: 0, to: 1_000_000 }]);
  if (wrong) return wrong;
  const atLeast = day(operating / gammaQuantile(failures + 1, CONFIDENCE));
  if (failures === 0) {
    const message = `No failure in ${operating} days tells no mean; with 95 % confidence it is at least ${atLeast.toFixed(0)} days.`;
    return { ...refused("no-failures", message), atLeast };
  }
  return {
    ok: true,
    value: day(operating / failures),
    method: "operating time over failures",
    uncertainty: {
      low: atLeast,
      high: operating / gammaQuantile(failures, 1 - CONFIDENCE),
      because: `${failures} failures: one-sided 95 % limits below and above, for a constant failure rate`,
    },
    source: "definition; chi-square limits of a Poisson count",
  };
}

/**
 * Failures to be expected in an operating time, for a constant failure rate.
 *
 *   failures = operating time / MTBF
 */
export function expectedFailures(operating: Day, mtbf: Day): Calculated<number, "out-of-range"> {
  return periodOutOfRange(operating, mtbf) ?? exact(operating / mtbf, "operating time over mean time between failures");
}

/**
 * Probability that a device does not fail in a period.
 *
 *   percent = 100 x exp(-period / MTBF)
 *
 * in        period and mean time between failures (days)
 * out       percent
 * validity  a constant failure rate: neither the first weeks nor the worn-out years of a device
 * error     that of the mean time between failures
 * source    exponential distribution of the time to failure
 */
export function noFailureChance(period: Day, mtbf: Day): Calculated<Percent, "out-of-range"> {
  return periodOutOfRange(period, mtbf) ?? exact(percent(100 * Math.exp(-period / mtbf)), "exponential distribution");
}

/**
 * Share of the time in which a device can be used.
 *
 *   percent = 100 x MTBF / (MTBF + MTTR)
 *
 * in        mean time between failures (days), mean time to repair (hours)
 * out       percent
 * validity  repairs that begin at the failure; planned maintenance is not counted
 * error     that of the two means
 * source    definition in reliability texts (from memory)
 */
export function availability(mtbf: Day, repair: Hour): Calculated<Percent, "out-of-range"> {
  const wrong = outOfRange([
    { name: "The mean time between failures", value: mtbf, unit: "days", from: 0.001, to: LARGEST_DAYS },
    { name: "The mean time to repair", value: repair, unit: "h", from: 0, to: 1e6 },
  ]);
  return wrong ?? exact(percent((100 * mtbf) / (mtbf + repair / 24)), "time between failures over that and repair");
}

/**
 * Done in time, of what was due.
 *
 *   percent = 100 x done / due
 *
 * refuses   nothing due ("nothing-due"): 0 of 0 is n/a, neither 0 nor 100 %; more done than due
 * source    common practice, no source
 */
export function completion(done: number, due: number): Calculated<Percent, "out-of-range" | "nothing-due"> {
  const wrong: Refused<"out-of-range"> | null = notWhole([
    { name: "What was due", value: due, unit: "", from: 0, to: 1e9 },
    { name: "What was done in time", value: done, unit: "", from: 0, to: due },
  ]);
  if (wrong) return wrong;
  if (due === 0)
    return refused("nothing-due", "Nothing was due, so completion is n/a: 0 of 0 is neither 0 nor 100 percent.");
  return exact(percent((100 * done) / due), "done in time over due");
}

/** Days in years of 365.25 days. */
export const yearsOf = (days: Day): number => days / DAYS_PER_YEAR;

function periodOutOfRange(period: Day, mtbf: Day): Refused<"out-of-range"> | null {
  return outOfRange([
    { name: "The period", value: period, unit: "days", from: 0, to: LARGEST_DAYS },
    { name: "The mean time between failures", value: mtbf, unit: "days", from: 0.001, to: LARGEST_DAYS },
  ]);
}

function exact<Value>(value: Value, method: string) {
  return { ok: true, value, method, uncertainty: null, source: "definition" } as const;
}
