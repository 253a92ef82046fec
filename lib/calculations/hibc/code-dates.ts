import { dateOf, lastOfMonth } from "@/lib/calculations/calendar-months";
import { nearYear } from "@/lib/calculations/century-window";
import { addDays, type LocalDate } from "@/lib/units/time";

export const HIBC_DATE_FORMATS = ["MMYY", "MMDDYY", "YYMMDD", "YYMMDDHH", "YYJJJ", "YYJJJHH"] as const;
export type HibcDateFormat = (typeof HIBC_DATE_FORMATS)[number];

export interface HibcDate {
  readonly date: LocalDate;
  /** By month: the code tells no day, the last one of the month stands for it. */
  readonly precision: "month" | "day" | "hour";
  readonly hour: number | null;
}

/** A date in one of the formats; null when the calendar has none such. Without a day of reading the years are 2000 to 2099. */
export function hibcDate(digits: string, format: HibcDateFormat, seenOn: LocalDate | null): HibcDate | null {
  const part = (letters: string) => {
    const at = format.indexOf(letters);
    return at < 0 ? null : Number(digits.slice(at, at + letters.length));
  };
  const two = part("YY") ?? 0;
  const year = seenOn ? nearYear(two, seenOn) : 2_000 + two;
  const hour = part("HH");
  if (hour !== null && hour > 23) return null;
  const date = dayOf(year, part("MM"), part("DD"), part("JJJ"));
  if (!date) return null;
  if (format === "MMYY") return { date, precision: "month", hour };
  return { date, precision: hour === null ? "day" : "hour", hour };
}

function dayOf(year: number, month: number | null, day: number | null, dayOfYear: number | null): LocalDate | null {
  if (dayOfYear !== null) return ordinal(year, dayOfYear);
  if (month === null || month < 1 || month > 12) return null;
  return day === null ? lastOfMonth(year, month) : dateOf({ year, month, day });
}

/** Day 1 is 1 January; day 366 only in a leap year. */
function ordinal(year: number, day: number): LocalDate | null {
  const first = dateOf({ year, month: 1, day: 1 });
  if (!first || day < 1) return null;
  const date = addDays(first, day - 1);
  return date.slice(0, 4) === first.slice(0, 4) ? date : null;
}
