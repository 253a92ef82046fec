import type { LocalDate } from "@/lib/units/time";

/** From 49 years back to 50 years ahead of the year in which the code is read. */
const AHEAD = 50;
const BACK = 49;

/**
 * The full year of a two-digit one, by the sliding window: the century that puts it within 49 years before to 50 years after the year
 * of reading. So a code keeps its meaning for as long as it is on a shelf, and 99 read in 2026 is 1999.
 *
 * source    GS1 General Specifications, section 7.12, determination of century in dates (from memory)
 */
export function nearYear(twoDigits: number, seenOn: LocalDate): number {
  const seen = Number(seenOn.slice(0, 4));
  const century = seen - (seen % 100);
  const year = century + twoDigits;
  if (year - seen > AHEAD) return year - 100;
  return seen - year > BACK ? year + 100 : year;
}
