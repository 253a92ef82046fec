import { addDays, type LocalDate, weekday } from "@/lib/units/time";
import { dateOf, lastOfMonth } from "./calendar-months";

const MONDAY = 1;
const THURSDAY = 4;
const SATURDAY = 6;
const SUNDAY = 0;

/** Month and day; the year from which the holiday is kept, where it is younger than the calendar asked for. */
const FIXED = [
  { month: 1, day: 1, since: 1885 },
  { month: 6, day: 19, since: 2021 },
  { month: 7, day: 4, since: 1885 },
  { month: 11, day: 11, since: 1978 },
  { month: 12, day: 25, since: 1885 },
] as const;

/** The nth weekday of a month. */
const FLOATING = [
  { month: 1, weekday: MONDAY, nth: 3 },
  { month: 2, weekday: MONDAY, nth: 3 },
  { month: 9, weekday: MONDAY, nth: 1 },
  { month: 10, weekday: MONDAY, nth: 2 },
  { month: 11, weekday: THURSDAY, nth: 4 },
] as const;

/**
 * The federal holidays of the United States on the days on which offices close: one on a Saturday is kept the Friday before, one on a
 * Sunday the Monday after. Days closed by a single order are not in it.
 *
 * in        a year, 1986 to 9998
 * out       the dates in that year, in order. 1 January of the next year may be kept on 31 December of this one: it is included
 * source    5 U.S.C. 6103 and Executive Order 11582 (from memory)
 */
export function federalHolidays(year: number): LocalDate[] {
  const fixed = [...FIXED.map((holiday) => ({ ...holiday, year })), { ...FIXED[0], year: year + 1 }]
    .filter(({ since, year: own }) => own >= since)
    .map(({ month, day, year: own }) => kept(known(dateOf({ year: own, month, day }))));
  const floating = FLOATING.map((rule) => nth(year, rule.month, rule.weekday, rule.nth));
  return [...fixed, ...floating, lastMonday(year, 5)].filter((date) => date.startsWith(yearText(year))).sort();
}

const yearText = (year: number) => String(year).padStart(4, "0");

function kept(date: LocalDate): LocalDate {
  if (weekday(date) === SATURDAY) return addDays(date, -1);
  return weekday(date) === SUNDAY ? addDays(date, 1) : date;
}

function nth(year: number, month: number, day: number, which: number): LocalDate {
  const first = known(dateOf({ year, month, day: 1 }));
  return addDays(first, ((day - weekday(first) + 7) % 7) + 7 * (which - 1));
}

function lastMonday(year: number, month: number): LocalDate {
  const last = known(lastOfMonth(year, month));
  return addDays(last, -((weekday(last) - MONDAY + 7) % 7));
}

function known(date: LocalDate | null): LocalDate {
  if (date === null) throw new RangeError("federal holidays are known for the years 1986 to 9998");
  return date;
}
