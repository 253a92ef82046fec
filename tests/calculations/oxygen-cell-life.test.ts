import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { oxygenCellLife } from "@/lib/calculations/oxygen-cell-life";
import { hour, percent, percentHour } from "@/lib/units/measure";
import { allFinite, answerOf, computed, refusalOf } from "@/tests/support/calculated";

const days = (rated: number, parts: readonly (readonly [percent: number, hours: number])[], used = 0) =>
  oxygenCellLife({
    rated: percentHour(rated),
    use: parts.map(([share, hours]) => ({ percent: percent(share), hoursPerDay: hour(hours) })),
    used: percentHour(used),
  });

describe("life of a galvanic oxygen cell by percent-hours", () => {
  // A rating of 500,000 %h is typical (from memory); the days are computed, to one day.
  it.each([
    { share: 21, expected: 992 },
    { share: 100, expected: 208.3 },
  ])("lasts $expected days at $share % around the clock", ({ share, expected }) => {
    expect(Math.abs(answerOf(days(500_000, [[share, 24]])) - expected)).toBeLessThan(0.5);
  });

  it("adds the parts of a day", () => {
    expect(
      answerOf(
        days(500_000, [
          [50, 10],
          [21, 14],
        ]),
      ),
    ).toBeCloseTo(500_000 / 794, 9);
  });

  it("counts the hours that are not listed as room air at its lower end", () => {
    const { value, uncertainty } = computed(days(500_000, [[50, 10]]));
    expect(value).toBe(1000);
    expect(uncertainty?.high).toBe(1000);
    expect(uncertainty?.low).toBeCloseTo(500_000 / (500 + 14 * 20.9), 9);
  });

  it("is 0 when the rating is used up, never negative", () => {
    expect(answerOf(days(500_000, [[21, 24]], 250_000))).toBeCloseTo(250_000 / 504, 9);
    expect(answerOf(days(500_000, [[21, 24]], 600_000))).toBe(0);
  });

  it("takes a day in tenths of an hour that adds up to 24 by a hair more", () => {
    expect(
      days(
        500_000,
        Array.from({ length: 240 }, () => [21, 0.1] as const),
      ).ok,
    ).toBe(true);
  });

  it.each([
    {
      because: "25 hours in a day",
      answer: days(500_000, [
        [21, 13],
        [100, 12],
      ]),
      why: "more-than-a-day",
    },
    { because: "a part of 25 hours", answer: days(500_000, [[21, 25]]), why: "out-of-range" },
    { because: "over 100 %", answer: days(500_000, [[101, 1]]), why: "out-of-range" },
    { because: "no rating", answer: days(0, [[21, 24]]), why: "out-of-range" },
    { because: "no oxygen", answer: days(500_000, [[0, 24]]), why: "no-consumption" },
    { because: "no parts", answer: days(500_000, []), why: "no-consumption" },
  ])("refuses $because: $why", ({ answer, why }) => {
    expect(refusalOf(answer)).toBe(why);
  });

  it("answers finite numbers or a reason, whatever it is given", () => {
    const any = fc.double({ noNaN: true, noDefaultInfinity: true });
    fc.assert(
      fc.property(any, any, any, any, (rated, share, hours, used) => {
        const answer = days(rated, [[share, hours]], used);
        if (answer.ok) expect(allFinite(answer)).toBe(true);
        else refusalOf(answer);
      }),
    );
  });
});
