import { addDays, type LocalDate } from "@/lib/units/time";
import type { Calculated } from "./calculated";
import { addMonths, civilOf, dateOf, lastOfMonth, yearAndMonth } from "./calendar-months";
import { outsideCalendar, type ServiceWindow, windowAround } from "./service-dates";

export const QUARTERLY_READINGS = ["last-done", "month", "calendar-quarter"] as const;
export type QuarterlyReading = (typeof QUARTERLY_READINGS)[number];

const QUARTER = 3;
const TOLERANCE_DAYS = 10;

const NAMES: Readonly<Record<QuarterlyReading, string>> = {
  "last-done": "3 months from last done, 10 days either way",
  month: "third month after last done, 10 days before it begins to 10 days after it ends",
  "calendar-quarter": "once in each calendar quarter",
};

/**
 * Quarterly work in the three readings that are in use: they give different windows, so a site names its reading.
 *
 *   last-done          last done + 3 months, 10 days either way
 *   month              the third month after: 10 days before its first day to 10 days after its last
 *   calendar-quarter   any day of the next calendar quarter
 *
 * in        last done
 * out       due and window, both ends included. By month and by quarter the due date is the last day of the month or quarter
 * error     exact. A published example of the reading by month says "May 21" where ten days before 1 June is 22 May
 * refuses   a date whose window leaves the calendar
 * source    accreditation manual 2015 in facility-engineering pages (secondary): "every three months, plus or minus 10 days"; an
 *           engineering reading from the month; an older text "four times a year, once in each quarter". The narrowest is last-done
 */
export function quarterlyWindow(
  lastDone: LocalDate,
  reading: QuarterlyReading,
): Calculated<ServiceWindow, "outside-the-calendar"> {
  const value = READ[reading](lastDone);
  if (!value) return outsideCalendar(lastDone);
  return {
    ok: true,
    value,
    method: NAMES[reading],
    uncertainty: null,
    source: "facility-engineering pages on accreditation timelines (secondary), three readings",
  };
}

const READ: Readonly<Record<QuarterlyReading, (lastDone: LocalDate) => ServiceWindow | null>> = {
  "last-done": (lastDone) => {
    const due = addMonths(lastDone, QUARTER);
    return due && windowAround(due, TOLERANCE_DAYS);
  },
  month: (lastDone) => {
    const due = addMonths(lastDone, QUARTER);
    if (!due) return null;
    const { year, month } = civilOf(due);
    return wholeMonths(year, month, month, TOLERANCE_DAYS);
  },
  "calendar-quarter": (lastDone) => {
    const { year, month } = civilOf(lastDone);
    const first = yearAndMonth(year * 12 + Math.floor((month - 1) / QUARTER) * QUARTER + QUARTER);
    return wholeMonths(first.year, first.month, first.month + QUARTER - 1, 0);
  },
};

function wholeMonths(year: number, first: number, last: number, spare: number): ServiceWindow | null {
  const start = dateOf({ year, month: first, day: 1 });
  const due = lastOfMonth(year, last);
  // The same guard as around a single date: ten days beyond year 9999 cannot be written.
  if (!(start && due && windowAround(due, spare))) return null;
  return { due, from: addDays(start, -spare), to: addDays(due, spare) };
}
