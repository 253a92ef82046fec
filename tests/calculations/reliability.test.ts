import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gammaBelow, gammaQuantile } from "@/lib/calculations/gamma-function";
import {
  availability,
  completion,
  expectedFailures,
  meanTimeBetweenFailures,
  noFailureChance,
} from "@/lib/calculations/reliability";
import { day, hour } from "@/lib/units/measure";
import { allFinite, answerOf, computed, refusalOf } from "@/tests/support/calculated";

describe("mean time between failures", () => {
  it("lies between its limits, which draw together as failures are counted", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5_000 }), (failures) => {
        const { value, uncertainty } = computed(meanTimeBetweenFailures(day(10_000), failures));
        const { low = 0, high = 0 } = uncertainty ?? {};
        expect(low).toBeLessThan(value);
        expect(high).toBeGreaterThan(value);
        const more = computed(meanTimeBetweenFailures(day(10_000), failures + 1)).uncertainty;
        expect((more?.high ?? 0) / (more?.low ?? 1)).toBeLessThan(high / low);
      }),
      { numRuns: 40 },
    );
  });

  it("tells no mean without a failure, but how long it is at least: operating time over 2.996", () => {
    const answer = meanTimeBetweenFailures(day(3_000), 0);
    expect(refusalOf(answer)).toBe("no-failures");
    expect("atLeast" in answer && answer.atLeast).toBeCloseTo(3_000 / -Math.log(0.05), 6);
  });

  it("refuses what cannot be", () => {
    expect(refusalOf(meanTimeBetweenFailures(day(0), 1))).toBe("out-of-range");
    expect(refusalOf(meanTimeBetweenFailures(day(10), -1))).toBe("out-of-range");
    expect(refusalOf(meanTimeBetweenFailures(day(10), 1.5))).toBe("out-of-range");
    expect(refusalOf(expectedFailures(day(10), day(0)))).toBe("out-of-range");
    expect(refusalOf(noFailureChance(day(-1), day(10)))).toBe("out-of-range");
    expect(refusalOf(availability(day(10), hour(-1)))).toBe("out-of-range");
    expect(refusalOf(completion(5, 4))).toBe("out-of-range");
    expect(refusalOf(completion(-1, 4))).toBe("out-of-range");
  });
});

describe("chances and shares", () => {
  it("stay between 0 and 100 %", () => {
    const days = fc.double({ min: 0.001, max: 1e8, noNaN: true }).map(day);
    fc.assert(
      fc.property(days, days, (one, other) => {
        for (const answer of [noFailureChance(one, other), availability(one, hour(other / 1e3))]) {
          expect(allFinite(answer)).toBe(true);
          expect(answerOf(answer)).toBeGreaterThanOrEqual(0);
          expect(answerOf(answer)).toBeLessThanOrEqual(100);
        }
      }),
    );
  });

  it("are 36.8 % without failure over one mean time, and 50 % available when repair takes as long", () => {
    expect(answerOf(noFailureChance(day(7), day(7)))).toBeCloseTo(100 / Math.E, 9);
    expect(answerOf(availability(day(2), hour(48)))).toBe(50);
  });

  it("are done over due", () => {
    expect(answerOf(completion(0, 3))).toBe(0);
    expect(answerOf(completion(3, 3))).toBe(100);
  });
});

describe("the incomplete gamma function", () => {
  it("is the sum of Poisson's chances for whole shapes", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.double({ min: 0.01, max: 100, noNaN: true }), (shape, x) => {
        let term = Math.exp(-x);
        let below = term;
        for (let k = 1; k < shape; k += 1) {
          term *= x / k;
          below += term;
        }
        expect(gammaBelow(shape, x)).toBeCloseTo(1 - below, 10);
      }),
    );
  });

  it("is undone by its quantile", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 100_000 }),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        (shape, share) => {
          expect(gammaBelow(shape, gammaQuantile(shape, share))).toBeCloseTo(share, 8);
        },
      ),
    );
  });
});
