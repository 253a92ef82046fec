import { describe, expect, it } from "vitest";
import { absorbentLife, NOT_LIMITED } from "@/lib/calculations/absorbent-life";
import {
  capacityFromLime,
  capacityFromUptake,
  carbonDioxideFromWeight,
  lifeFromFractionalUse,
} from "@/lib/calculations/carbon-dioxide";
import { gram, kilogram, litrePer100Gram, litrePerMinute, millilitrePerMinute, percent } from "@/lib/units/measure";
import { answerOf, computed } from "@/tests/support/calculated";

describe("published values of absorbent", () => {
  // USP 35, Soda Lime monograph: at least 19.0 % of its weight. The litres are computed, to 0.05.
  it("turns the pharmacopoeia's minimum of 19.0 % of weight into 10.39 L/100 g at 20 C and 9.68 at 0 C", () => {
    expect(Math.abs(answerOf(capacityFromUptake(percent(19), "20C-1atm")) - 10.39)).toBeLessThan(0.05);
    expect(Math.abs(answerOf(capacityFromUptake(percent(19), "0C-1atm")) - 9.68)).toBeLessThan(0.05);
  });

  // Morgan and Mikhail (from memory) give 26 L for 100 g; stoichiometry of 80 g of calcium hydroxide.
  it("has the textbook's ceiling of 26 L for 80 g of calcium hydroxide", () => {
    expect(Math.abs(answerOf(capacityFromLime(percent(80), "20C-1atm")) - 25.97)).toBeLessThan(0.1);
    expect(Math.abs(answerOf(capacityFromLime(percent(80), "0C-1atm")) - 24.2)).toBeLessThan(0.1);
  });

  // Jorgensen 1977, doi 10.1111/j.1399-6576.1977.tb01244.x: 600 g took up 300 mL/min for 4 hours, 72 L, 12 L/100 g.
  it("gives 600 g at 12 L/100 g four hours of 300 mL/min in a closed circuit", () => {
    const life = absorbentLife({
      mass: gram(600),
      capacity: litrePer100Gram(12),
      co2: millilitrePerMinute(300),
      freshGas: litrePerMinute(0),
      minuteVentilation: litrePerMinute(6),
    });
    expect(answerOf(life)).toBeCloseTo(4, 12);
  });

  // Feldman, Lo, Hendrickx 2020 (abstract): at or above the minute ventilation no carbon dioxide reaches the absorbent.
  it.each([6, 6.1, 10])(
    "is not limited by carbon dioxide at %s L/min of fresh gas and 6 L/min of ventilation",
    (flow) => {
      const life = computed(
        absorbentLife({
          mass: gram(600),
          capacity: litrePer100Gram(12),
          co2: millilitrePerMinute(300),
          freshGas: litrePerMinute(flow),
          minuteVentilation: litrePerMinute(6),
        }),
      );
      expect(life).toMatchObject({ value: NOT_LIMITED, load: 0 });
      expect(life.remark).toMatch(/drying|age/);
    },
  );

  // Moody 2018 (3.5 mL/kg/min, 80 kg) and Feldman, Lo, Hendrickx 2020 (quotient 0.8), abstracts.
  it("makes 224 mL/min of carbon dioxide at 80 kg", () => {
    expect(answerOf(carbonDioxideFromWeight(kilogram(80)))).toBeCloseTo(224, 9);
  });

  // J Clin Monit Comput 2018, doi 10.1007/s10877-017-0088-x: fractional canister use, by definition the reciprocal of life.
  it("lasts 12.5 h when 0.08 of a canister is used in an hour", () => {
    expect(answerOf(lifeFromFractionalUse(0.08))).toBe(12.5);
  });
});
