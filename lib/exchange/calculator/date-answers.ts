import { federalHolidays } from "@/lib/calculations/federal-holidays";
import { quarterlyWindow } from "@/lib/calculations/quarterly-window";
import { serviceDue } from "@/lib/calculations/service-dates";
import { MONDAY_TO_FRIDAY, reportDue, type WorkCalendar, workDaysAfter } from "@/lib/calculations/work-days";
import * as schemas from "@/lib/schemas/calculator/dates";
import { dateIn, instantOf, type LocalDate, localDate } from "@/lib/units/time";
import { tell } from "./answer";
import { calculation } from "./calculation";

export const serviceDueAnswer = calculation({
  name: "service-due",
  title: "When service is due",
  group: "dates",
  about: "Due date and window. The maker or the law may forbid a tolerance.",
  schema: schemas.serviceDue,
  example: { lastDone: "2026-03-15", intervalMonths: 3, toleranceDays: 10, basis: "last-done" },
  run: ({ lastDone, intervalMonths, toleranceDays, basis, anchor }) => {
    const plan = { lastDone: localDate(lastDone), intervalMonths, toleranceDays };
    if (basis === "last-done" || anchor === undefined) return tell(serviceDue({ ...plan, basis: "last-done" }), null);
    return tell(serviceDue({ ...plan, basis, anchor: localDate(anchor) }), null);
  },
});

export const quarterlyWindowAnswer = calculation({
  name: "quarterly-window",
  title: "Quarterly work, in three readings",
  group: "dates",
  about: "The window of a quarterly interval, by the reading that the site goes by.",
  schema: schemas.quarterlyWindow,
  example: { lastDone: "2026-03-15", reading: "last-done" },
  run: ({ lastDone, reading }) => tell(quarterlyWindow(localDate(lastDone), reading), null),
});

export const workDaysAnswer = calculation({
  name: "work-days",
  title: "A period in work days",
  group: "dates",
  about: "The last day of a period in work days, Monday to Friday without the holidays.",
  schema: schemas.workDays,
  example: { start: "2026-11-20", days: 10 },
  run: ({ start, days, ...closed }) => {
    const from = localDate(start);
    return tell(workDaysAfter(from, days, calendarFor(from, days, closed)), null);
  },
});

const REPORT_WORK_DAYS = 10;

export const reportDueAnswer = calculation({
  name: "report-due",
  title: "Report of a serious device event",
  group: "dates",
  about: "The last day for the report under 21 CFR 803.30, by the facility's own calendar day.",
  schema: schemas.reportDue,
  example: { awareAt: "2026-11-21T05:50:00Z", zone: "America/Chicago" },
  run: ({ awareAt, zone, ...closed }) => {
    const at = instantOf(awareAt);
    return tell(reportDue(at, zone, calendarFor(dateIn(zone, at), REPORT_WORK_DAYS, closed)), null);
  },
});

interface Closed {
  readonly federalHolidays: boolean;
  readonly holidays: readonly string[];
}

const FIRST_HOLIDAYS = 1986;
const LAST_HOLIDAYS = 9998;

/** The holidays of every year that the period can reach into: a year has some 250 work days. */
function calendarFor(start: LocalDate, days: number, closed: Closed): WorkCalendar {
  const first = Number(start.slice(0, 4));
  const years = closed.federalHolidays ? 2 + Math.min(5, Math.floor(Math.abs(days) / 200)) : 0;
  const federal = Array.from({ length: years }, (_, after) => first + after)
    .filter((year) => year >= FIRST_HOLIDAYS && year <= LAST_HOLIDAYS)
    .flatMap((year) => federalHolidays(year));
  return { weekend: MONDAY_TO_FRIDAY, holidays: [...federal, ...closed.holidays.map(localDate)] };
}
