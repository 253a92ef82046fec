import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type CheckClock, checkDayAt, checkDayOn } from "@/lib/domain/check-day";
import { withValues } from "@/lib/domain/rules/examples";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { HOUR, instant, instantAt, localDate, localTime, timestampOf } from "@/lib/units/time";
import { readyRoom } from "@/tests/support/ready-room";

const NEW_YORK: CheckClock = {
  timeZone: "America/New_York",
  turnsAt: localTime("03:00"),
  goodUntil: localTime("05:00"),
};
const local = (date: string, time: string, clock = NEW_YORK) =>
  instantAt(clock.timeZone, localDate(date), localTime(time));

describe("the check day of a moment", () => {
  it.each([
    { date: "2026-06-10", time: "23:50", day: "2026-06-10", because: "before midnight" },
    {
      date: "2026-06-11",
      time: "00:10",
      day: "2026-06-10",
      because: "after midnight it still belongs to the night before",
    },
    { date: "2026-06-11", time: "02:59", day: "2026-06-10", because: "until the turn" },
    { date: "2026-06-11", time: "03:00", day: "2026-06-11", because: "at the turn" },
    {
      date: "2027-03-14",
      time: "03:00",
      day: "2027-03-14",
      because: "clocks went from 02:00 to 03:00: 03:00 is still the turn",
    },
    { date: "2027-03-14", time: "05:30", day: "2027-03-14", because: "three hours less would be the day before" },
    { date: "2027-03-14", time: "01:59", day: "2027-03-13", because: "before the gap" },
    { date: "2026-11-01", time: "01:30", day: "2026-10-31", because: "the hour shown twice lies before the turn" },
    { date: "2026-11-01", time: "03:00", day: "2026-11-01", because: "clocks went back: 03:00 is still the turn" },
  ])("$date $time belongs to $day ($because)", ({ date, time, day }) => {
    expect(checkDayAt(NEW_YORK, local(date, time)).date).toBe(day);
  });

  it("turns once where the turn itself is shown twice: at its first showing", () => {
    const early = { ...NEW_YORK, turnsAt: localTime("01:30") };
    const firstShowing = instantAt("America/New_York", localDate("2026-11-01"), localTime("01:30"));
    // 01:15 for the second time, three quarters of an hour after the turn; asked first, before any day is remembered.
    expect(checkDayAt(early, instant(firstShowing + 45 * 60_000)).date).toBe("2026-11-01");
    expect(checkDayAt(early, firstShowing).date).toBe("2026-11-01");
    expect(checkDayAt(early, instant(firstShowing - 60_000)).date).toBe("2026-10-31");
  });

  it("ends its validity at 05:00 of the next check day, on the days clocks change too", () => {
    const validity = (date: string) => timestampOf(checkDayOn(NEW_YORK, localDate(date)).validUntil);
    expect(validity("2026-06-10")).toBe("2026-06-11T09:00:00.000Z");
    expect(validity("2026-10-31")).toBe("2026-11-01T10:00:00.000Z");
    expect(validity("2027-03-13")).toBe("2027-03-14T09:00:00.000Z");
  });

  it("is 25 h long when clocks go back over its night and 23 h when they go forward", () => {
    const hours = (date: string) => {
      const { from, to } = checkDayOn(NEW_YORK, localDate(date));
      return (to - from) / HOUR;
    };
    expect(hours("2026-10-31")).toBe(25);
    expect(hours("2027-03-13")).toBe(23);
    expect(hours("2026-06-10")).toBe(24);
  });

  it("holds every moment in exactly one day, whatever the zone, the turn and the order of asking", () => {
    const clock = fc.record({
      timeZone: fc.constantFrom(
        "America/New_York",
        "Europe/London",
        "Australia/Lord_Howe",
        "Asia/Kolkata",
        "America/Santiago",
      ),
      turnsAt: fc.constantFrom("00:00", "01:30", "02:30", "03:00", "04:00").map(localTime),
      goodUntil: fc.constant(localTime("05:00")),
    });
    const moment = fc.integer({ min: Date.UTC(2024, 0, 1), max: Date.UTC(2028, 0, 1) }).map(instant);
    fc.assert(
      fc.property(clock, fc.array(moment, { minLength: 1, maxLength: 5 }), (which, moments) => {
        for (const at of moments) {
          const day = checkDayAt(which, at);
          expect(at).toBeGreaterThanOrEqual(day.from);
          expect(at).toBeLessThan(day.to);
          expect(day).toEqual(checkDayOn(which, day.date));
        }
      }),
      { numRuns: 400 },
    );
  });
});

describe("the site's own clock of checks", () => {
  it("is 03:00 and 05:00 as shipped", () => {
    expect(checkClock(readyRoom())).toMatchObject({ turnsAt: "03:00", goodUntil: "05:00" });
  });

  it("follows the site's setting, and not one that is no time", () => {
    const site = (turnsAt: string) => ({
      ...readyRoom(),
      settings: { "check-validity": { on: true, values: { turnsAt }, version: 2, citation: "site policy" } },
    });
    expect(checkClock(site("04:30"))).toMatchObject({ turnsAt: "04:30", goodUntil: "05:00" });
    expect(checkClock(site("noon"))).toMatchObject({ turnsAt: "03:00" });
    expect(checkClock(withValues(readyRoom(), "check-validity", { turnsAt: 4 }))).toMatchObject({ turnsAt: "03:00" });
  });
});
