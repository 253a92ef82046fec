import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  addDays,
  DAY,
  dateIn,
  daysBetween,
  HOUR,
  instant,
  instantAt,
  instantOf,
  localDate,
  localTime,
  timeIn,
  timestampOf,
  weekday,
} from "@/lib/units/time";

const NEW_YORK = "America/New_York";
const at = (zone: string, date: string, time: string) => timestampOf(instantAt(zone, localDate(date), localTime(time)));

describe("a facility's date and time as an instant", () => {
  // Zone data of the IANA database; a repeated time means its first occurrence, a missing one is read with the offset
  // before the gap: RFC 5545, section 3.3.5.
  it.each([
    {
      zone: NEW_YORK,
      date: "2026-10-31",
      time: "07:00",
      is: "2026-10-31T11:00:00.000Z",
      because: "the day before clocks go back",
    },
    {
      zone: NEW_YORK,
      date: "2026-11-01",
      time: "07:00",
      is: "2026-11-01T12:00:00.000Z",
      because: "07:00 is 07:00, not 24 h later",
    },
    {
      zone: NEW_YORK,
      date: "2027-03-13",
      time: "07:00",
      is: "2027-03-13T12:00:00.000Z",
      because: "the day before clocks go forward",
    },
    { zone: NEW_YORK, date: "2027-03-14", time: "07:00", is: "2027-03-14T11:00:00.000Z", because: "the day they do" },
    {
      zone: NEW_YORK,
      date: "2026-11-01",
      time: "01:30",
      is: "2026-11-01T05:30:00.000Z",
      because: "shown twice, the first counts",
    },
    {
      zone: NEW_YORK,
      date: "2027-03-14",
      time: "02:30",
      is: "2027-03-14T07:30:00.000Z",
      because: "never shown, read as 03:30",
    },
    {
      zone: "Europe/London",
      date: "2026-10-25",
      time: "01:30",
      is: "2026-10-25T00:30:00.000Z",
      because: "shown twice, the first counts",
    },
    {
      zone: "America/Phoenix",
      date: "2026-11-01",
      time: "07:00",
      is: "2026-11-01T14:00:00.000Z",
      because: "never changes",
    },
    {
      zone: "Asia/Kolkata",
      date: "2026-11-01",
      time: "00:00",
      is: "2026-10-31T18:30:00.000Z",
      because: "half-hour zones exist",
    },
    {
      zone: "Pacific/Kiritimati",
      date: "2026-11-01",
      time: "00:00",
      is: "2026-10-31T10:00:00.000Z",
      because: "14 h ahead",
    },
  ])("$date $time in $zone is $is ($because)", ({ zone, date, time, is }) => {
    expect(at(zone, date, time)).toBe(is);
  });

  it("makes a night of 23:00 to 07:00 nine hours when clocks go back and seven when they go forward", () => {
    const hours = (from: string, to: string) =>
      (instantAt(NEW_YORK, localDate(to), localTime("07:00")) -
        instantAt(NEW_YORK, localDate(from), localTime("23:00"))) /
      HOUR;
    expect(hours("2026-10-31", "2026-11-01")).toBe(9);
    expect(hours("2027-03-13", "2027-03-14")).toBe(7);
    expect(hours("2026-06-01", "2026-06-02")).toBe(8);
  });

  it("reads back what it wrote, in any zone, wherever the time exists", () => {
    const zone = fc.constantFrom(NEW_YORK, "Europe/London", "Australia/Lord_Howe", "Asia/Kolkata", "America/Chicago");
    const moment = fc.integer({ min: Date.UTC(2020, 0, 1), max: Date.UTC(2035, 0, 1) });
    fc.assert(
      fc.property(zone, moment, (where, milliseconds) => {
        const minute = instant(Math.floor(milliseconds / 60_000) * 60_000);
        const again = instantAt(where, dateIn(where, minute), timeIn(where, minute));
        expect(dateIn(where, again)).toBe(dateIn(where, minute));
        expect(timeIn(where, again)).toBe(timeIn(where, minute));
        expect(again).toBeLessThanOrEqual(minute);
      }),
      { numRuns: 300 },
    );
  });
});

describe("instants, dates and times as text", () => {
  it("reads exactly what the platform reads", () => {
    const moment = fc.integer({ min: Date.UTC(1970, 0, 1), max: Date.UTC(2099, 11, 31) });
    fc.assert(
      fc.property(moment, (milliseconds) => {
        expect(instantOf(new Date(milliseconds).toISOString())).toBe(milliseconds);
      }),
    );
    expect(instantOf("2026-03-03T06:10:00Z")).toBe(Date.UTC(2026, 2, 3, 6, 10));
    expect(instantOf("2026-03-03T06:10:00+01:00")).toBe(Date.UTC(2026, 2, 3, 5, 10));
    expect(instantOf("2026-03-03T06:10:00.250Z")).toBe(Date.UTC(2026, 2, 3, 6, 10, 0, 250));
  });

  it.each([
    "",
    "yesterday",
    "2026-13-01T00:00:00.000Z",
    "2026-03-03T25:00:00.000Z",
    "2026-03-03T06:61:00.000Z",
    "2O26-03-03T06:10:00.000Z",
  ])("refuses %j as an instant", (text) => {
    expect(() => instantOf(text)).toThrow(RangeError);
  });

  it.each(["2026-02-30", "2026-2-3", "26-02-03", "2026-02-03T00:00", ""])("refuses %j as a date", (text) => {
    expect(() => localDate(text)).toThrow(RangeError);
  });

  it.each(["24:00", "7:00", "07:60", "07:00:00", ""])("refuses %j as a time of day", (text) => {
    expect(() => localTime(text)).toThrow(RangeError);
  });

  it("counts days over month ends, leap years and changes of the clock", () => {
    expect(addDays(localDate("2028-02-28"), 1)).toBe("2028-02-29");
    expect(addDays(localDate("2027-02-28"), 1)).toBe("2027-03-01");
    expect(addDays(localDate("2026-01-01"), -1)).toBe("2025-12-31");
    expect(daysBetween(localDate("2026-10-31"), localDate("2026-11-02"))).toBe(2);
    expect(daysBetween(localDate("2026-11-02"), localDate("2026-10-31"))).toBe(-2);
    expect(weekday(localDate("2026-11-25"))).toBe(3);
    expect(DAY).toBe(86_400_000);
  });
});
