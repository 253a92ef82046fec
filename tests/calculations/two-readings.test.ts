import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { closedCylinderPressure } from "@/lib/calculations/closed-cylinder";
import { compareReadings, type TwoReadingsRequest } from "@/lib/calculations/two-readings";
import { celsius, litre } from "@/lib/units/measure";
import { gaugePressureIn } from "@/lib/units/pressure";
import { HOUR, instant, later } from "@/lib/units/time";
import { answerOf, refusalOf } from "@/tests/support/calculated";

const EVENING = instant(Date.UTC(2026, 10, 24, 22));

interface Night {
  readonly psi: readonly [number, number];
  readonly t: readonly [number | null, number | null];
  readonly hours?: number;
  readonly over?: Partial<TwoReadingsRequest>;
}

function night({ psi, t, hours = 8, over = {} }: Night) {
  const reading = (n: 0 | 1) => {
    const temperature = t[n];
    return {
      pressure: { value: psi[n], unit: "psi" as const },
      temperature: temperature === null ? null : celsius(temperature),
      at: n === 0 ? EVENING : later(EVENING, hours * HOUR),
    };
  };
  return compareReadings({
    gas: "oxygen",
    waterCapacity: litre(4.8),
    reference: "70F-1atm",
    first: reading(0),
    second: reading(1),
    ...over,
  });
}

describe("two readings of one closed cylinder", () => {
  it("1,900 psi at 21 C and 1,801 at 10 C is a cold night", () => {
    const told = answerOf(night({ psi: [1_900, 1_801], t: [21.1, 10] }));
    expect(told).toMatchObject({ verdict: "cold-night", why: "temperature-explains", elapsed: 480 });
    expect(Math.abs(told.lost?.value ?? 99)).toBeLessThan(0.2);
  });

  it("the same fall without the cold is a leak, in litres and in litres an hour", () => {
    const told = answerOf(night({ psi: [1_900, 1_801], t: [21.1, 21.1] }));
    expect(told).toMatchObject({ verdict: "leak", why: "beyond-both" });
    // 99 psi of 1,900, 660 L: 35 L in 8 hours.
    expect(told.lost?.value).toBeCloseTo(35, 0);
    expect(told.perHour?.value).toBeCloseTo((told.lost?.value ?? 0) / 8, 9);
    expect(told.perHour?.low).toBeGreaterThan(0);
    expect(told.perHour?.high).toBeGreaterThan(told.perHour?.value ?? 99);
  });

  it("a fall that the gauge alone may make cannot be told, and its upper end bounds the leak", () => {
    const told = answerOf(night({ psi: [1_900, 1_880], t: [21, 21] }));
    expect(told).toMatchObject({ verdict: "cannot-tell", why: "within-gauge" });
    expect(told.perHour?.high).toBeGreaterThan(told.perHour?.value ?? 99);
    expect(told.perHour?.low).toBeLessThan(0);
  });

  it("warmth can hide a leak: the same reading ten degrees warmer is less gas", () => {
    const told = answerOf(night({ psi: [1_900, 1_900], t: [10, 30] }));
    expect(told.verdict).toBe("leak");
    expect(told.lost?.value).toBeGreaterThan(50);
  });

  it("a better gauge sees a smaller leak", () => {
    const fine = { accuracy: { gaugeClass: 0.5, temperatureK: 0.5 } };
    expect(answerOf(night({ psi: [1_900, 1_870], t: [21, 21] })).verdict).toBe("cannot-tell");
    expect(answerOf(night({ psi: [1_900, 1_870], t: [21, 21], over: fine })).verdict).toBe("leak");
  });

  it("unknown temperatures cannot tell a hundred psi, but can tell half the cylinder", () => {
    expect(answerOf(night({ psi: [1_900, 1_800], t: [null, 21] }))).toMatchObject({
      verdict: "cannot-tell",
      why: "temperature-unknown",
    });
    expect(answerOf(night({ psi: [1_900, 950], t: [null, null] })).verdict).toBe("leak");
  });

  it("more gas than before is no leak: another cylinder, or a wrong reading", () => {
    expect(answerOf(night({ psi: [900, 1_900], t: [21, 21] })).verdict).toBe("gained");
  });

  it("an emptied gauge is a leak, and two empty ones cannot tell", () => {
    expect(answerOf(night({ psi: [1_900, 0], t: [21, 21] })).verdict).toBe("leak");
    expect(answerOf(night({ psi: [0, 0], t: [21, 21] })).verdict).toBe("cannot-tell");
    expect(answerOf(night({ psi: [40, 0], t: [21, 21] })).verdict).toBe("cannot-tell");
  });

  it("liquid nitrous oxide cannot be told by its gauge; its gas phase can", () => {
    const n2o = { gas: "nitrous-oxide" } as const;
    expect(answerOf(night({ psi: [745, 640], t: [21, 15], over: n2o }))).toMatchObject({
      verdict: "cannot-tell",
      why: "liquid-present",
      lost: null,
      perHour: null,
    });
    expect(answerOf(night({ psi: [600, 300], t: [21, 21], over: n2o })).verdict).toBe("leak");
  });

  it("refuses readings out of order or out of range", () => {
    expect(refusalOf(night({ psi: [1_900, 1_800], t: [21, 21], hours: 0 }))).toBe("not-in-order");
    expect(refusalOf(night({ psi: [1_900, 1_800], t: [21, 21], hours: -1 }))).toBe("not-in-order");
    expect(refusalOf(night({ psi: [-1, 1_800], t: [21, 21] }))).toBe("pressure-below-zero");
    expect(refusalOf(night({ psi: [1_900, 9_999], t: [21, 21] }))).toBe("pressure-out-of-range");
    expect(refusalOf(night({ psi: [1_900, 1_800], t: [21, 61] }))).toBe("temperature-out-of-range");
    expect(refusalOf(night({ psi: [1_900, 1_800], t: [21, 21], over: { waterCapacity: litre(0) } }))).toBe(
      "water-capacity-unusable",
    );
    expect(refusalOf(night({ psi: [1_900, 1_800], t: [21, 21], over: { accuracy: { gaugeClass: 99 } } }))).toBe(
      "accuracy-unusable",
    );
  });

  it("never calls a closed cylinder's own change with temperature a leak or a gain", () => {
    const t = fc.double({ min: 0, max: 40, noNaN: true });
    fc.assert(
      fc.property(
        fc.constantFrom("oxygen", "air"),
        fc.double({ min: 100, max: 2_400, noNaN: true }),
        t,
        t,
        (gas, psi, from, to) => {
          const moved = answerOf(
            closedCylinderPressure({
              gas,
              pressure: { value: psi, unit: "psi" },
              from: celsius(from),
              to: celsius(to),
            }),
          );
          const told = answerOf(night({ psi: [psi, gaugePressureIn(moved, "psi")], t: [from, to], over: { gas } }));
          expect(["cold-night", "cannot-tell"]).toContain(told.verdict);
          expect(Math.abs(told.lost?.value ?? 99)).toBeLessThan(1e-6);
        },
      ),
      { numRuns: 500 },
    );
  });
});
