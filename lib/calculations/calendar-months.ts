import { type LocalDate, localDate } from "@/lib/units/time";

/** The calendar of service dates: the years that four digits can write. */
export const FIRST_YEAR = 1;
export const LAST_YEAR = 9_999;

export interface CivilDate {
  readonly year: number;
  /** 1 is January. */
  readonly month: number;
  readonly day: number;
}

export function civilOf(date: LocalDate): CivilDate {
  return { year: Number(date.slice(0, 4)), month: Number(date.slice(5, 7)), day: Number(date.slice(8, 10)) };
}

/** Null when the calendar has no such day: 30 February, month 13, a year that four digits cannot write. */
export function dateOf({ year, month, day }: CivilDate): LocalDate | null {
  if (year < FIRST_YEAR || year > LAST_YEAR || month < 1 || month > 12) return null;
  if (day < 1 || day > daysInMonth(year, month)) return null;
  const two = (part: number) => String(part).padStart(2, "0");
  return localDate(`${String(year).padStart(4, "0")}-${two(month)}-${two(day)}`);
}

export function daysInMonth(year: number, month: number): number {
  if (month === 2) return isLeap(year) ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

const isLeap = (year: number) => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;

/** Months since year 0: the number that month arithmetic is done in. */
export const monthNumber = ({ year, month }: CivilDate): number => year * 12 + month - 1;

export function yearAndMonth(number: number): { readonly year: number; readonly month: number } {
  return { year: Math.floor(number / 12), month: (((number % 12) + 12) % 12) + 1 };
}

/**
 * The same day some months later; a day that the month does not have becomes its last (31 August + 6 months is the last of February).
 * Null outside the calendar. Common practice, no source.
 */
export function addMonths(date: LocalDate, months: number): LocalDate | null {
  const civil = civilOf(date);
  const { year, month } = yearAndMonth(monthNumber(civil) + months);
  return dateOf({ year, month, day: Math.min(civil.day, daysInMonth(year, month)) });
}

export function lastOfMonth(year: number, month: number): LocalDate | null {
  return dateOf({ year, month, day: daysInMonth(year, month) });
}
