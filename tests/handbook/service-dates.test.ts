import { describe, expect, it } from "vitest";
import { addMonths } from "@/lib/calculations/calendar-months";
import { federalHolidays } from "@/lib/calculations/federal-holidays";
import { quarterlyWindow } from "@/lib/calculations/quarterly-window";
import { eventFileUntil, retestDue } from "@/lib/calculations/retest-date";
import { serviceDue } from "@/lib/calculations/service-dates";
import { MONDAY_TO_FRIDAY, reportDue, workDaysAfter } from "@/lib/calculations/work-days";
import { instantOf, localDate } from "@/lib/units/time";
import { answerOf } from "@/tests/support/calculated";

const due = (lastDone: string, intervalMonths: number, toleranceDays: number, anchor?: string) => {
  const plan = { lastDone: localDate(lastDone), intervalMonths, toleranceDays };
  return answerOf(
    serviceDue(
      anchor === undefined ? { ...plan, basis: "last-done" } : { ...plan, basis: "anchor", anchor: localDate(anchor) },
    ),
  );
};

describe("published due dates and windows", () => {
  // Facility-engineering pages on completion of planned maintenance (secondary): quarterly +/- 10 days, worked with 15 March.
  it("is due on 15 June, from 5 to 25 June, after 15 March by the quarterly rule", () => {
    const expected = { due: "2026-06-15", from: "2026-06-05", to: "2026-06-25" };
    expect(due("2026-03-15", 3, 10)).toEqual(expected);
    expect(answerOf(quarterlyWindow(localDate("2026-03-15"), "last-done"))).toEqual(expected);
  });

  // Same pages, the reading by the month: "May 21 to July 10". Ten days before 1 June is 22 May: the page is a day off.
  it("runs from 22 May to 10 July by the reading from the month", () => {
    const window = answerOf(quarterlyWindow(localDate("2026-03-15"), "month"));
    expect(window).toEqual({ due: "2026-06-30", from: "2026-05-22", to: "2026-07-10" });
  });

  // The older text: four times a year, once in each quarter.
  it("is any day of the next calendar quarter by the oldest reading", () => {
    const read = (date: string) => answerOf(quarterlyWindow(localDate(date), "calendar-quarter"));
    expect(read("2026-03-15")).toEqual({ due: "2026-06-30", from: "2026-04-01", to: "2026-06-30" });
    expect(read("2026-10-01")).toEqual({ due: "2027-03-31", from: "2027-01-01", to: "2027-03-31" });
    expect(read("2026-12-31")).toEqual({ due: "2027-03-31", from: "2027-01-01", to: "2027-03-31" });
  });

  // The same pages: 12 months +/- 30 days from the last event.
  it("is due on 28 February 2027, within 30 days, a year after 28 February 2026", () => {
    expect(due("2026-02-28", 12, 30)).toEqual({ due: "2027-02-28", from: "2027-01-29", to: "2027-03-30" });
  });

  // Calendar arithmetic; that a missing day becomes the month's last is common practice.
  it.each([
    { from: "2026-08-31", months: 6, to: "2027-02-28" },
    { from: "2024-02-29", months: 12, to: "2025-02-28" },
    { from: "2024-02-29", months: 36, to: "2027-02-28" },
    { from: "2024-02-29", months: 48, to: "2028-02-29" },
    { from: "2026-01-31", months: 1, to: "2026-02-28" },
    { from: "2026-12-31", months: 2, to: "2027-02-28" },
  ])("$months months after $from is $to", ({ from, months, to }) => {
    expect(due(from, months, 0).due).toBe(to);
    expect(addMonths(localDate(from), months)).toBe(to);
  });

  it("drifts from the 31st by last done and not by the anchor", () => {
    expect(due("2026-02-28", 1, 0).due).toBe("2026-03-28");
    expect(due("2026-02-28", 1, 0, "2026-01-31").due).toBe("2026-03-31");
  });
});

describe("dates that regulations give", () => {
  // 21 CFR 803.18: event files are kept for two years from the event.
  it("keeps the file of an event of 1 May 2026 until 1 May 2028", () => {
    expect(answerOf(eventFileUntil(localDate("2026-05-01")))).toBe("2028-05-01");
  });

  // 49 CFR 180.209, table 1: 3AL every five years. Star: ten years, 3A and 3AA (paragraph b, from memory).
  it("is due for its test in March 2027 when a 3AL cylinder is stamped 03-22", () => {
    const seenOn = localDate("2026-11-25");
    expect(answerOf(retestDue({ stamp: "03-22", specification: "3AL", star: false, seenOn }))).toBe("2027-03");
    expect(answerOf(retestDue({ stamp: "03-22", specification: "3AA", star: true, seenOn }))).toBe("2032-03");
    expect(answerOf(retestDue({ stamp: "11 98", specification: "3HT", star: false, seenOn }))).toBe("2001-11");
  });

  // Holidays kept by federal offices as the personnel office lists them (from memory); 5 U.S.C. 6103.
  it("knows the federal holidays of 2026 and 2027", () => {
    expect(federalHolidays(2026)).toEqual(
      ["01-01", "01-19", "02-16", "05-25", "06-19", "07-03", "09-07", "10-12", "11-11", "11-26", "12-25"].map(
        (day) => `2026-${day}`,
      ),
    );
    expect(federalHolidays(2027)).toEqual(
      ["01-01", "01-18", "02-15", "05-31", "06-18", "07-05", "09-06", "10-11", "11-11", "11-25", "12-24", "12-31"].map(
        (day) => `2027-${day}`,
      ),
    );
  });

  // 21 CFR 803.30: not later than 10 work days after the day of becoming aware; 803.3: Monday to Friday without federal holidays.
  it("gives 10 work days after Wednesday 18 November 2026, over Thanksgiving, until 3 December", () => {
    const calendar = { weekend: MONDAY_TO_FRIDAY, holidays: federalHolidays(2026) };
    expect(answerOf(workDaysAfter(localDate("2026-11-18"), 10, calendar))).toBe("2026-12-03");
    expect(answerOf(workDaysAfter(localDate("2026-11-18"), 10, { ...calendar, holidays: [] }))).toBe("2026-12-02");
  });

  it("counts from the facility's day, whatever the day is in UTC", () => {
    const calendar = { weekend: MONDAY_TO_FRIDAY, holidays: federalHolidays(2026) };
    const lateOnSunday = instantOf("2026-11-02T04:30:00Z");
    expect(answerOf(reportDue(lateOnSunday, "America/New_York", calendar))).toBe("2026-11-16");
    expect(answerOf(reportDue(lateOnSunday, "Europe/London", calendar))).toBe("2026-11-17");
  });
});
