import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { clockForStart, type DemoClock, nextMorning } from "@/lib/cli/demo-clock";
import { dateIn, instant, instantOf, localDate, timeIn, timestampOf, weekday } from "@/lib/units/time";

const CHICAGO = "America/Chicago";

describe("the demonstration's clock", () => {
  it.each([
    { from: "2026-03-04T11:00:00Z", to: "2026-03-04T12:10:00.000Z", because: "05:00 on a Wednesday: the same morning" },
    { from: "2026-03-04T12:10:00Z", to: "2026-03-05T12:10:00.000Z", because: "06:10 exactly: strictly later" },
    {
      from: "2026-03-06T18:00:00Z",
      to: "2026-03-09T11:10:00.000Z",
      because: "Friday noon: Monday, an hour nearer by summer time",
    },
    { from: "2026-10-30T20:00:00Z", to: "2026-11-02T12:10:00.000Z", because: "Monday after winter time began" },
  ])("goes from $from to $to ($because)", ({ from, to }) => {
    expect(timestampOf(nextMorning(instantOf(from), CHICAGO).at)).toBe(to);
  });

  it("always comes to a working day, 06:10, ahead and by no more than a weekend", () => {
    const someday = fc.integer({ min: Date.parse("2026-01-01"), max: Date.parse("2036-01-01") });
    fc.assert(
      fc.property(someday, fc.constantFrom(CHICAGO, "Europe/London", "Asia/Kathmandu"), (at, zone) => {
        const { day, at: morning } = nextMorning(instant(at), zone);
        expect(timeIn(zone, morning)).toBe("06:10");
        expect(dateIn(zone, morning)).toBe(day);
        expect([1, 2, 3, 4, 5]).toContain(weekday(day));
        expect(morning).toBeGreaterThan(at);
        expect(morning - at).toBeLessThanOrEqual((3 * 24 + 1) * 3_600_000);
      }),
    );
  });

  it("keeps a running morning until noon of its day, then goes to the next", () => {
    const machine = instantOf("2026-02-10T20:00:00Z");
    const first = clockForStart(undefined, machine, CHICAGO);
    expect(first).toMatchObject({ day: "2026-02-11", made: false });
    const running = { ...first, made: true };
    const hoursLater = (hours: number) => clockForStart(running, instant(machine + hours * 3_600_000), CHICAGO);
    expect(hoursLater(0)).toBe(running);
    expect(hoursLater(5.8)).toBe(running);
    expect(hoursLater(6)).toMatchObject({ day: "2026-02-12", made: false });
  });

  it("does not begin a morning a second time when its making was cut short", () => {
    const machine = instantOf("2026-02-10T20:00:00Z");
    const cut = clockForStart(undefined, machine, CHICAGO);
    expect(clockForStart(cut, machine, CHICAGO)).toMatchObject({ day: "2026-02-12", made: false });
  });

  it("never goes back, whenever it is started", () => {
    const steps = fc.array(fc.record({ hours: fc.integer({ min: 0, max: 200 }), made: fc.boolean() }), {
      maxLength: 12,
    });
    fc.assert(
      fc.property(steps, (starts) => {
        let machine = Date.parse("2026-02-10T20:00:00Z");
        let kept: DemoClock | undefined;
        let shown = Number.NEGATIVE_INFINITY;
        for (const { hours, made } of starts) {
          machine += hours * 3_600_000;
          const clock = clockForStart(kept, instant(machine), CHICAGO);
          expect(machine + clock.offset).toBeGreaterThanOrEqual(shown);
          expect(clock.offset).toBeGreaterThanOrEqual(kept?.offset ?? 0);
          shown = machine + clock.offset;
          kept = { ...clock, made: clock.made || made };
        }
      }),
    );
  });

  it("gives days as the calendar writes them", () => {
    expect(clockForStart(undefined, instantOf("2026-12-31T20:00:00Z"), CHICAGO).day).toBe(localDate("2027-01-01"));
  });
});
