import { type Refused, refused } from "@/lib/calculations/calculated";
import { dateOf, lastOfMonth } from "@/lib/calculations/calendar-months";
import { nearYear } from "@/lib/calculations/century-window";
import type { LocalDate } from "@/lib/units/time";

export type DateRefusal = "not-a-date";

/**
 * A date written YYMMDD. Day 00 is the last day of the month, the century that of the sliding window about the day of reading.
 *
 * source    GS1 General Specifications 3.4 and 7.12 (from memory); day 00 in public barcode documentation
 */
export function dateOfCode(digits: string, seenOn: LocalDate): LocalDate | null {
  const year = nearYear(Number(digits.slice(0, 2)), seenOn);
  const month = Number(digits.slice(2, 4));
  const day = Number(digits.slice(4, 6));
  if (day !== 0) return dateOf({ year, month, day });
  return month >= 1 && month <= 12 ? lastOfMonth(year, month) : null;
}

/** A date with hours, or hours and minutes, or also seconds: YYMMDDHH[MM[SS]]. The day must be told. */
export function dateTimeOfCode(digits: string, seenOn: LocalDate): string | null {
  const date = digits.slice(4, 6) === "00" ? null : dateOfCode(digits.slice(0, 6), seenOn);
  const times = digits.slice(6).match(/\d{2}/g) ?? [];
  const [hours = "00", minutes = "00", seconds] = times;
  const even = digits.length % 2 === 0;
  if (!date || !even || Number(hours) > 23 || Number(minutes) > 59 || Number(seconds ?? "0") > 59) return null;
  if (times.length === 0) return date;
  return `${date}T${[hours, minutes, seconds].filter((part) => part !== undefined).join(":")}`;
}

/** One date, or first and last joined by a slash as ISO 8601 writes an interval. */
export function dateRangeOfCode(digits: string, seenOn: LocalDate): string | null {
  const first = dateOfCode(digits.slice(0, 6), seenOn);
  if (digits.length === 6) return first;
  const last = digits.length === 12 ? dateOfCode(digits.slice(6), seenOn) : null;
  return first && last && first <= last ? `${first}/${last}` : null;
}

export function notADate(where: string, digits: string): Refused<DateRefusal> {
  return refused("not-a-date", `${where} says ${digits}, and the calendar has no such day (${spoken(digits)}).`);
}

function spoken(digits: string): string {
  const [year = "", month = "", day = "", ...time] = digits.match(/\d{1,2}/g) ?? [];
  const clock = time.length > 0 ? `, time ${time.join(":")}` : "";
  return `year ${year}, month ${month}, day ${day}${clock}`;
}
