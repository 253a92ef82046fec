import { addDays, daysBetween, type LocalDate } from "@/lib/units/time";
import { type Calculated, type Refused, refused } from "./calculated";
import { addMonths, civilOf, monthNumber } from "./calendar-months";
import { notWhole } from "./within";

interface PlanBase {
  readonly lastDone: LocalDate;
  readonly intervalMonths: number;
  readonly toleranceDays: number;
}

/** From when the next interval runs: from the work itself, or by a fixed schedule that late work does not move. */
export type ServicePlan =
  | (PlanBase & { readonly basis: "last-done" })
  | (PlanBase & { readonly basis: "anchor"; readonly anchor: LocalDate });

export interface ServiceWindow {
  readonly due: LocalDate;
  /** First and last day on which the work counts as done in time. */
  readonly from: LocalDate;
  readonly to: LocalDate;
}

export type ServiceRefusal = "out-of-range" | "outside-the-calendar";

const SOURCE =
  "Interval and tolerance are the site's; last done: accreditation practice (facility-engineering pages on completion of planned maintenance); anchor and month ends: common practice, no source";

/**
 * When planned work is due, and the window in which it counts as on time.
 *
 *   last-done   due = last done + interval
 *   anchor      due = the date of the schedule (anchor + k x interval) that follows the one the last work counted for
 *   window      due - tolerance to due + tolerance, both included
 *
 * in        last done, interval in months, tolerance in days, basis, anchor
 * out       three dates. A day that the month does not have becomes its last day. By last-done such a step stays (31 January, 28 February,
 *           28 March); by anchor it does not (31 January, 28 February, 31 March), for each date is counted from the anchor
 * validity  dates of the facility's calendar, without times. Work counts for the nearest date of the schedule if it was done within the
 *           tolerance of it, otherwise for the last date before it: work done a little early is not asked for twice
 * error     exact
 * refuses   an interval or tolerance that is not a whole number in range; a result beyond the year 9999
 * not for   deciding what the maker or the law allows: both may forbid a tolerance
 * source    common practice; the tolerance by interval stands in `usualTolerance`
 */
export function serviceDue(plan: ServicePlan): Calculated<ServiceWindow, ServiceRefusal> {
  const wrong = unusable(plan);
  if (wrong) return wrong;
  const due = plan.basis === "last-done" ? addMonths(plan.lastDone, plan.intervalMonths) : bySchedule(plan);
  const window = due && windowAround(due, plan.toleranceDays);
  if (!window) return outsideCalendar(plan.lastDone);
  return {
    ok: true,
    value: window,
    method: plan.basis === "last-done" ? "interval from last done" : "interval from a fixed anchor",
    uncertainty: null,
    source: SOURCE,
  };
}

function bySchedule(plan: Extract<ServicePlan, { basis: "anchor" }>): LocalDate | null {
  const { anchor, lastDone, intervalMonths, toleranceDays } = plan;
  const at = (step: number) => addMonths(anchor, step * intervalMonths);
  const before = lastAtOrBefore(lastDone, anchor, intervalMonths);
  const next = at(before + 1);
  const last = at(before);
  if (next === null || last === null) return next;
  const early = daysBetween(lastDone, next);
  const late = daysBetween(last, lastDone);
  return early <= toleranceDays && early < late ? at(before + 2) : next;
}

/** How many intervals from the anchor lies the last date of the schedule that is not after the day? Negative before the anchor. */
function lastAtOrBefore(date: LocalDate, anchor: LocalDate, interval: number): number {
  const guess = Math.floor((monthNumber(civilOf(date)) - monthNumber(civilOf(anchor))) / interval);
  const scheduled = addMonths(anchor, guess * interval);
  return scheduled !== null && scheduled > date ? guess - 1 : guess;
}

export function windowAround(due: LocalDate, toleranceDays: number): ServiceWindow | null {
  const { year } = civilOf(due);
  const spare = toleranceDays / 365;
  if (year - spare < 2 || year + spare > 9_998) return null;
  return { due, from: addDays(due, -toleranceDays), to: addDays(due, toleranceDays) };
}

export function outsideCalendar(date: LocalDate): Refused<"outside-the-calendar"> {
  return refused(
    "outside-the-calendar",
    `Counted from ${date} the date leaves the years that can be written. Check the date and the interval.`,
  );
}

function unusable({ intervalMonths, toleranceDays }: PlanBase): Refused<ServiceRefusal> | null {
  return notWhole([
    { name: "The interval", value: intervalMonths, unit: "months", from: 1, to: 1_200 },
    { name: "The tolerance", value: toleranceDays, unit: "days", from: 0, to: 3_660 },
  ]);
}

/**
 * The tolerance that goes with an interval, in days; null where no published figure is known.
 * Source: 3 months 10 days, 6 months 20 days, 12 months 30 days: facility-engineering pages on accreditation timelines (secondary);
 * 36 months 45 days from memory of the same.
 */
export function usualTolerance(intervalMonths: number): number | null {
  return USUAL_TOLERANCES[intervalMonths] ?? null;
}

const USUAL_TOLERANCES: Readonly<Record<number, number>> = { 3: 10, 6: 20, 12: 30, 36: 45 };
