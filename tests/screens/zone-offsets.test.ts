import { describe, expect, it } from "vitest";
import { adoptOffsets, instant, instantOf, later, offsetAt, timeIn } from "@/lib/units/time";
import { offsetsAround } from "@/lib/units/zone-offsets";

const HOUR = 3_600_000;

describe("the offsets of a zone, to hand to a screen", () => {
  // Directive 2000/84/EC, and the Energy Policy Act of 2005 for the United States: the last Sundays of March and October at 01:00 UTC,
  // the second Sunday of March and the first of November at 02:00 local time.
  it.each([
    ["Europe/London", "2026-10-25T01:00:00Z", 1, 0],
    ["America/Chicago", "2026-11-01T07:00:00Z", -5, -6],
    ["America/Chicago", "2027-03-14T08:00:00Z", -6, -5],
  ])("%s changes at %s, to the second", (zone, change, before, after) => {
    const { steps } = offsetsAround(zone, instantOf("2026-11-25T00:00:00Z"));
    const step = steps.find(({ from }) => from === Date.parse(change));
    expect(step?.offset).toBe(after * HOUR);
    expect(steps[step ? steps.indexOf(step) - 1 : -1]?.offset).toBe(before * HOUR);
  });

  it("are those the machine itself would use, hour by hour", () => {
    const now = instantOf("2026-11-25T00:00:00Z");
    const { steps } = offsetsAround("Australia/Lord_Howe", now);
    for (let at = later(now, -399 * 24 * HOUR); at < now + 399 * 24 * HOUR; at = later(at, 7 * HOUR)) {
      expect(steps.findLast(({ from }) => from <= at)?.offset).toBe(offsetAt(at, "Australia/Lord_Howe"));
    }
  });

  it("have one step where clocks never change", () => {
    expect(offsetsAround("Asia/Kolkata", instantOf("2026-11-25T00:00:00Z")).steps.map(({ offset }) => offset)).toEqual([
      5.5 * HOUR,
    ]);
  });
});

describe("a screen that adopts the server's offsets", () => {
  it("tells the server's time within their reach, and its own beyond", () => {
    const zone = "Africa/Nairobi";
    const now = instantOf("2026-11-25T12:00:00Z");
    expect(timeIn(zone, now)).toBe("15:00");
    adoptOffsets({ zone, steps: [{ from: now - HOUR, offset: 4 * HOUR }], to: now + HOUR });
    expect(timeIn(zone, now)).toBe("16:00");
    expect(timeIn(zone, instant(now + HOUR))).toBe("16:00");
    expect(timeIn(zone, instant(now - 2 * HOUR))).toBe("13:00");
  });
});
