import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addMonths, civilOf, dateOf, daysInMonth } from "@/lib/calculations/calendar-months";
import { nearYear } from "@/lib/calculations/century-window";
import { federalHolidays } from "@/lib/calculations/federal-holidays";
import { QUARTERLY_READINGS, quarterlyWindow } from "@/lib/calculations/quarterly-window";
import { retestDue } from "@/lib/calculations/retest-date";
import { type ServicePlan, serviceDue, usualTolerance } from "@/lib/calculations/service-dates";
import { isWorkDay, MONDAY_TO_FRIDAY, workDaysAfter } from "@/lib/calculations/work-days";
import { addDays, daysBetween, type LocalDate, localDate, weekday } from "@/lib/units/time";
import { answerOf, refusalOf } from "@/tests/support/calculated";

const anyDate = fc.integer({ min: 0, max: 40_000 }).map((days) => addDays(localDate("1990-01-01"), days));
const plan = (lastDone: LocalDate, intervalMonths: number, toleranceDays: number): ServicePlan => ({
  lastDone,
  intervalMonths,
  toleranceDays,
  basis: "last-done",
});
const anchored = (lastDone: string, anchor: string, intervalMonths: number, toleranceDays: number) =>
  answerOf(
    serviceDue({
      basis: "anchor",
      anchor: localDate(anchor),
      lastDone: localDate(lastDone),
      intervalMonths,
      toleranceDays,
    }),
  );

describe("months of the calendar", () => {
  it("reads back every day it writes", () => {
    fc.assert(fc.property(anyDate, (date) => void expect(dateOf(civilOf(date))).toBe(date)));
  });

  it("agrees with the platform on the length of every month of four centuries", () => {
    for (let year = 1900; year < 2300; year += 1) {
      for (let month = 1; month <= 12; month += 1) {
        expect(daysInMonth(year, month)).toBe(new Date(Date.UTC(year, month, 0)).getUTCDate());
      }
    }
  });

  it("knows no 30 February, no month 13 and no year 0 or 10000", () => {
    for (const [year, month, day] of [
      [2027, 2, 30],
      [2027, 13, 1],
      [2027, 0, 1],
      [2027, 4, 31],
      [0, 1, 1],
      [10_000, 1, 1],
      [2027, 1, 0],
    ]) {
      expect(dateOf({ year: year ?? 0, month: month ?? 0, day: day ?? 0 })).toBeNull();
    }
  });

  it("stays on the day, or on the last of a shorter month", () => {
    fc.assert(
      fc.property(anyDate, fc.integer({ min: -600, max: 600 }), (date, months) => {
        const moved = civilOf(addMonths(date, months) as LocalDate);
        expect(moved.day).toBe(Math.min(civilOf(date).day, daysInMonth(moved.year, moved.month)));
        expect(moved.year * 12 + moved.month - civilOf(date).year * 12 - civilOf(date).month).toBe(months);
      }),
    );
  });
});

describe("due date and window", () => {
  it("is a window around the due date, both ends included", () => {
    fc.assert(
      fc.property(anyDate, fc.integer({ min: 1, max: 120 }), fc.integer({ min: 0, max: 60 }), (date, months, days) => {
        const { due, from, to } = answerOf(serviceDue(plan(date, months, days)));
        expect(daysBetween(from, due)).toBe(days);
        expect(daysBetween(due, to)).toBe(days);
        expect(due > date).toBe(true);
      }),
    );
  });

  it("by anchor lies on the schedule, after the work, at most two intervals later", () => {
    fc.assert(
      fc.property(
        anyDate,
        anyDate,
        fc.integer({ min: 1, max: 36 }),
        fc.integer({ min: 0, max: 10 }),
        (done, anchor, months, days) => {
          const { due } = anchored(done, anchor, months, days);
          const steps = (civilOf(due).year - civilOf(anchor).year) * 12 + civilOf(due).month - civilOf(anchor).month;
          expect(Math.abs(steps % months)).toBe(0);
          expect(addMonths(anchor, steps)).toBe(due);
          expect(due > done).toBe(true);
          expect(due <= (addMonths(done, 2 * months + 1) as LocalDate)).toBe(true);
        },
      ),
    );
  });

  it.each([
    { done: "2026-02-28", expected: "2026-03-31", because: "done on the day" },
    { done: "2026-02-26", expected: "2026-03-31", because: "a little early counts for that date" },
    { done: "2026-03-04", expected: "2026-03-31", because: "a little late counts for it too" },
    { done: "2026-03-20", expected: "2026-03-31", because: "very late work does not move the schedule" },
    { done: "2026-02-23", expected: "2026-03-31", because: "the window holds its first day" },
    { done: "2026-02-22", expected: "2026-02-28", because: "and not the day before" },
    { done: "2026-02-20", expected: "2026-02-28", because: "earlier than the tolerance was for the date before" },
    { done: "2025-11-30", expected: "2025-12-31", because: "the schedule runs backwards from the anchor as well" },
  ])("by an anchor on 31 January, monthly, 5 days: done $done, next $expected ($because)", ({ done, expected }) => {
    expect(anchored(done, "2026-01-31", 1, 5).due).toBe(expected);
  });

  it("asks once for each date of the schedule when the tolerance is wider than the interval", () => {
    expect(anchored("2026-01-31", "2026-01-31", 1, 40).due).toBe("2026-02-28");
  });

  it.each([
    { months: 0, days: 0 },
    { months: 1.5, days: 0 },
    { months: -1, days: 0 },
    { months: 12, days: -1 },
    { months: 12, days: 0.5 },
    { months: 1_201, days: 0 },
  ])("refuses an interval of $months months with $days days", ({ months, days }) => {
    expect(refusalOf(serviceDue(plan(localDate("2026-01-01"), months, days)))).toBe("out-of-range");
  });

  it("refuses to leave the calendar", () => {
    expect(refusalOf(serviceDue(plan(localDate("9990-01-01"), 240, 0)))).toBe("outside-the-calendar");
    expect(
      refusalOf(
        serviceDue({ ...plan(localDate("9990-01-01"), 240, 0), basis: "anchor", anchor: localDate("2026-01-01") }),
      ),
    ).toBe("outside-the-calendar");
    for (const reading of QUARTERLY_READINGS) {
      expect(refusalOf(quarterlyWindow(localDate("9999-11-30"), reading))).toBe("outside-the-calendar");
    }
  });

  it("has a usual tolerance where one is published and none elsewhere", () => {
    expect([1, 3, 6, 12, 24, 36].map(usualTolerance)).toEqual([null, 10, 20, 30, null, 45]);
  });
});

describe("the retest of a cylinder", () => {
  const seenOn = localDate("2026-11-25");

  it("refuses what is no stamp, and a star where none can be", () => {
    for (const stamp of ["13-22", "3-22", "2022-03", "", "00-22"]) {
      expect(refusalOf(retestDue({ stamp, specification: "3AA", star: false, seenOn }))).toBe("not-a-stamp");
    }
    expect(refusalOf(retestDue({ stamp: "03-22", specification: "3AL", star: true, seenOn }))).toBe("star-not-allowed");
  });

  it("puts a two-digit year within 49 years before and 50 after the reading", () => {
    for (let seen = 1990; seen < 2110; seen += 1) {
      for (let digits = 0; digits < 100; digits += 1) {
        const year = nearYear(digits, localDate(`${seen}-06-01`));
        expect(((year % 100) + 100) % 100).toBe(digits);
        expect(year - seen).toBeGreaterThanOrEqual(-49);
        expect(year - seen).toBeLessThanOrEqual(50);
      }
    }
  });
});

describe("work days", () => {
  const calendar = { weekend: MONDAY_TO_FRIDAY, holidays: [2025, 2026, 2027, 2028].flatMap(federalHolidays) };

  it("ends on a work day, with exactly that many work days after the start", () => {
    const start = fc.integer({ min: 0, max: 700 }).map((days) => addDays(localDate("2025-06-01"), days));
    fc.assert(
      fc.property(start, fc.integer({ min: 1, max: 60 }), (date, days) => {
        const end = answerOf(workDaysAfter(date, days, calendar));
        const passed = Array.from({ length: daysBetween(date, end) }, (_, index) => addDays(date, index + 1));
        expect(isWorkDay(end, calendar)).toBe(true);
        expect(passed.filter((day) => isWorkDay(day, calendar))).toHaveLength(days);
      }),
    );
  });

  it("never keeps a holiday on a weekend", () => {
    for (let year = 1986; year < 2100; year += 1) {
      for (const holiday of federalHolidays(year)) expect([0, 6]).not.toContain(weekday(holiday));
    }
  });

  it("refuses a week without work, a broken number of days, and none", () => {
    const start = localDate("2026-01-01");
    expect(refusalOf(workDaysAfter(start, 10, { weekend: [0, 1, 2, 3, 4, 5, 6], holidays: [] }))).toBe("no-work-days");
    expect(refusalOf(workDaysAfter(start, 1.5, calendar))).toBe("out-of-range");
    expect(refusalOf(workDaysAfter(start, 0, calendar))).toBe("out-of-range");
    expect(refusalOf(workDaysAfter(localDate("9990-01-01"), 10, calendar))).toBe("outside-the-calendar");
  });
});
