import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type AbsorbentUse, absorbentLife, NOT_LIMITED } from "@/lib/calculations/absorbent-life";
import {
  capacityFromLime,
  capacityFromUptake,
  carbonDioxideFromWeight,
  lifeFromFractionalUse,
} from "@/lib/calculations/carbon-dioxide";
import {
  gram,
  kilogram,
  litre,
  litrePer100Gram,
  litrePerMinute,
  millilitrePerMinute,
  percent,
} from "@/lib/units/measure";
import { allFinite, answerOf, computed, refusalOf } from "@/tests/support/calculated";

const given = (mass: number, capacity: number, co2: number, flow: number, ventilation: number): AbsorbentUse => ({
  mass: gram(mass),
  capacity: litrePer100Gram(capacity),
  co2: millilitrePerMinute(co2),
  freshGas: litrePerMinute(flow),
  minuteVentilation: litrePerMinute(ventilation),
});
const hours = (use: AbsorbentUse) => Number(answerOf(absorbentLife(use)));
const finite = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("life of a charge of absorbent", () => {
  it("is load over capacity: 1 kg at 12 L/100 g, 200 mL/min, 1 of 5 L/min fresh gas", () => {
    const life = computed(absorbentLife(given(1000, 12, 200, 1, 5)));
    expect(life.load).toBeCloseTo(160, 9);
    expect(life.value).toBeCloseTo(12.5, 9);
    expect(life.uncertainty?.low).toBeCloseTo((12.5 * 10) / 12, 9);
    expect(life.uncertainty?.high).toBeCloseTo((12.5 * 15) / 12, 9);
  });

  it("never falls when fresh gas rises", () => {
    fc.assert(
      fc.property(finite(0, 5.9), finite(0, 5.9), (one, other) => {
        const [less, more] = [Math.min(one, other), Math.max(one, other)];
        expect(hours(given(800, 12, 220, more, 6))).toBeGreaterThanOrEqual(hours(given(800, 12, 220, less, 6)));
      }),
    );
  });

  it("counts what was taken up already, to 0 and never below", () => {
    expect(hours({ ...given(600, 12, 300, 0, 6), absorbed: litre(36) })).toBeCloseTo(2, 9);
    expect(hours({ ...given(600, 12, 300, 0, 6), absorbed: litre(100) })).toBe(0);
  });

  it("is not limited where no carbon dioxide is made", () => {
    expect(answerOf(absorbentLife(given(600, 12, 0, 1, 6)))).toBe(NOT_LIMITED);
  });

  it("encloses its value in its range, also for a capacity beyond the practical ones", () => {
    fc.assert(
      fc.property(finite(0, 50), finite(0, 5.9), (capacity, flow) => {
        const { value, uncertainty } = computed(absorbentLife(given(1000, capacity, 200, flow, 6)));
        expect(uncertainty?.low).toBeLessThanOrEqual(Number(value));
        expect(uncertainty?.high).toBeGreaterThanOrEqual(Number(value));
      }),
    );
  });

  it("answers finite numbers or a reason, whatever it is given", () => {
    const any = fc.double({ noNaN: true, noDefaultInfinity: true });
    fc.assert(
      fc.property(any, any, any, any, any, (...numbers) => {
        const answer = absorbentLife(given(...numbers));
        if (answer.ok) expect(allFinite(answer)).toBe(true);
        else expect(refusalOf(answer)).toMatch(/^(out-of-range|no-ventilation)$/);
      }),
    );
  });

  it.each([
    { use: given(-1, 12, 200, 1, 6), why: "out-of-range" },
    { use: given(1000, 120, 200, 1, 6), why: "out-of-range" },
    { use: given(1000, 12, -5, 1, 6), why: "out-of-range" },
    { use: given(1000, 12, 200, -1, 6), why: "out-of-range" },
    { use: given(1000, 12, 200, 0, 0), why: "no-ventilation" },
  ])("refuses what cannot be: $why", ({ use, why }) => {
    expect(refusalOf(absorbentLife(use))).toBe(why);
  });
});

describe("carbon dioxide and capacity", () => {
  it("refuses what cannot be", () => {
    expect(refusalOf(carbonDioxideFromWeight(kilogram(0)))).toBe("out-of-range");
    expect(refusalOf(capacityFromUptake(percent(101), "20C-1atm"))).toBe("out-of-range");
    expect(refusalOf(capacityFromLime(percent(-1), "20C-1atm"))).toBe("out-of-range");
    expect(refusalOf(lifeFromFractionalUse(0))).toBe("no-consumption");
    expect(refusalOf(lifeFromFractionalUse(-1))).toBe("out-of-range");
  });
});
