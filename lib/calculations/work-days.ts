import { addDays, dateIn, type Instant, type LocalDate, weekday } from "@/lib/units/time";
import { type Calculated, refused } from "./calculated";
import { civilOf } from "./calendar-months";
import { notWhole } from "./within";

export interface WorkCalendar {
  /** Weekdays on which nobody works; 0 is Sunday. */
  readonly weekend: readonly number[];
  readonly holidays: readonly LocalDate[];
}

/** Monday to Friday; the holidays are the caller's. */
export const MONDAY_TO_FRIDAY: readonly number[] = [0, 6];

export type WorkDaysRefusal = "out-of-range" | "no-work-days" | "outside-the-calendar";

const REPORT_WORK_DAYS = 10;
const LAST_YEAR_COUNTED = 9_900;

export function isWorkDay(date: LocalDate, { weekend, holidays }: WorkCalendar): boolean {
  return !weekend.includes(weekday(date)) && !holidays.includes(date);
}

/**
 * The last day of a period counted in work days.
 *
 *   the first work day after `start` is day 1
 *
 * in        the day from which is counted (not counted itself, work day or not), work days, weekend and holidays
 * out       the day on which the last one falls
 * error     exact for the holidays that are given; a holiday that is not listed makes the date too early by a day, never too late
 * refuses   a number of days that is not whole or not from 1 to 1,000; a week without a work day
 * source    21 CFR 803.3: work days are Monday to Friday except federal holidays (from memory); 803.30: not later than 10 work days
 *           after the day of becoming aware
 */
export function workDaysAfter(
  start: LocalDate,
  days: number,
  calendar: WorkCalendar,
): Calculated<LocalDate, WorkDaysRefusal> {
  const wrong = notWhole([{ name: "The number of work days", value: days, unit: "days", from: 1, to: 1_000 }]);
  if (wrong) return wrong;
  if (new Set(calendar.weekend).size >= 7)
    return refused("no-work-days", "The week has no work day, so none can be counted.");
  if (civilOf(start).year > LAST_YEAR_COUNTED) {
    return refused("outside-the-calendar", `${start} is too far ahead to count work days from. Check the year.`);
  }
  return {
    ok: true,
    value: count(start, days, { weekend: calendar.weekend, holidays: calendar.holidays }),
    method: "work days after the day itself",
    uncertainty: null,
    source: "21 CFR 803.3 and 803.30",
  };
}

function count(start: LocalDate, days: number, { weekend, holidays }: WorkCalendar): LocalDate {
  const closed = new Set<string>(holidays);
  let date = start;
  for (let left = days; left > 0; ) {
    date = addDays(date, 1);
    if (!weekend.includes(weekday(date)) && !closed.has(date)) left -= 1;
  }
  return date;
}

/**
 * The last day for the report of a serious device event: 10 work days after the facility's day on which the staff became aware.
 * An event noticed at 23:50 belongs to that day by the facility's clock, whatever the day is in UTC.
 *
 * source    21 CFR 803.30
 */
export function reportDue(
  awareAt: Instant,
  zone: string,
  calendar: WorkCalendar,
): Calculated<LocalDate, WorkDaysRefusal> {
  return workDaysAfter(dateIn(zone, awareAt), REPORT_WORK_DAYS, calendar);
}
