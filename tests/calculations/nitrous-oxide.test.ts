import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cylinderContents } from "@/lib/calculations/cylinder-contents";
import {
  CRITICAL_C,
  lastLiquidContents,
  nitrousOxideByWeight,
  saturationPressure,
} from "@/lib/calculations/nitrous-oxide";
import { stateOfFill } from "@/lib/calculations/nitrous-oxide-fill";
import { celsius, kilogram, litre, pascalAbsolute } from "@/lib/units/measure";
import { gaugePressureIn } from "@/lib/units/pressure";
import { FILLINGS, GAS_PHASE_AT_20_C, LAST_LIQUID, SATURATION } from "@/tests/handbook/nitrous-oxide";
import { answerOf, refusalOf } from "@/tests/support/calculated";

const saturationPsi = (t: number): number => gaugePressureIn(answerOf(saturationPressure(celsius(t))), "psi");
const byWeight = (gross: number, tare: number, reference: "70F-1atm" | "15C" = "70F-1atm") =>
  nitrousOxideByWeight(kilogram(gross), kilogram(tare), reference);

describe("the gauge while liquid remains", () => {
  it.each(SATURATION)("at $celsius C shows $psi psi", ({ celsius: t, psi, barGauge }) => {
    expect(Math.abs(saturationPsi(t) - psi)).toBeLessThan(0.006);
    expect(Math.abs(gaugePressureIn(answerOf(saturationPressure(celsius(t))), "bar") - barGauge)).toBeLessThan(0.0001);
  });

  // Computed by the same equation, printed to 1 psi; 639 psi is also the reading of a UK teaching page, 745 the US handbooks'.
  it.each([
    [10, 566],
    [15, 639],
    [20, 718],
    [25, 805],
    [30, 900],
    [35, 1005],
  ])("at %d C shows %d psi, to the printed digit", (t, psi) => {
    expect(Math.abs(saturationPsi(t) - psi)).toBeLessThanOrEqual(0.5);
  });

  it("is within 30 psi of the handbooks' 745 at 20 C and within 5 psi of their 44 bar at 15 C", () => {
    expect(Math.abs(saturationPsi(20) - 745)).toBeLessThan(30);
    expect(Math.abs(saturationPsi(15) - 638.2)).toBeLessThan(5);
  });

  it("shows more where the air is thinner, by as much as the air presses less", () => {
    const high = answerOf(saturationPressure(celsius(20), pascalAbsolute(81_325)));
    expect(high - answerOf(saturationPressure(celsius(20)))).toBeCloseTo(20_000, 6);
  });

  it("rises with the temperature up to the critical point", () => {
    const t = fc.double({ min: -20, max: 36.369, noNaN: true });
    fc.assert(
      fc.property(t, t, (one, other) => {
        if (Math.abs(one - other) < 1e-6) return;
        expect(saturationPsi(Math.max(one, other))).toBeGreaterThan(saturationPsi(Math.min(one, other)));
      }),
    );
  });

  it("refuses where there is no liquid, and the cold that the figures do not reach", () => {
    expect(refusalOf(saturationPressure(celsius(CRITICAL_C)))).toBe("above-critical");
    expect(refusalOf(saturationPressure(celsius(40)))).toBe("above-critical");
    expect(refusalOf(saturationPressure(celsius(-20.1)))).toBe("temperature-out-of-range");
    expect(refusalOf(saturationPressure(celsius(20), pascalAbsolute(1)))).toBe("ambient-out-of-range");
    expect(saturationPressure(celsius(-20)).ok).toBe(true);
    expect(saturationPressure(celsius(36.369)).ok).toBe(true);
  });
});

describe("what is left at the last liquid", () => {
  it.each(LAST_LIQUID)("in 4.8 L at $celsius C: $total70F L, $usable70F usable", (row) => {
    const us = answerOf(lastLiquidContents(litre(4.8), celsius(row.celsius), "70F-1atm"));
    expect(Math.abs(us.total - row.total70F)).toBeLessThan(0.06);
    expect(Math.abs(us.usable - row.usable70F)).toBeLessThan(0.06);
    const iso = answerOf(lastLiquidContents(litre(4.8), celsius(row.celsius), "15C"));
    expect(Math.abs(iso.total - row.total15C)).toBeLessThan(0.06);
  });

  it.each(SATURATION)("per litre at $celsius C: $lastLiquidTotal L", (row) => {
    const { total, usable } = answerOf(lastLiquidContents(litre(1), celsius(row.celsius), "70F-1atm"));
    expect(Math.abs(total - row.lastLiquidTotal)).toBeLessThan(0.0006);
    expect(Math.abs(usable - row.lastLiquidUsable)).toBeLessThan(0.0006);
  });

  it("is where the gas phase begins: its last row, and the floor of the contents", () => {
    const [, , usable] = GAS_PHASE_AT_20_C.at(-1) ?? [0, 0, 0];
    const last = answerOf(lastLiquidContents(litre(4.8), celsius(20), "70F-1atm"));
    expect(Math.abs(last.usable - usable)).toBeLessThan(0.006);
    const contents = cylinderContents({
      gas: "nitrous-oxide",
      pressure: { value: 745, unit: "psi" },
      temperature: celsius(20),
      waterCapacity: litre(4.8),
      reference: "70F-1atm",
      method: { kind: "equation-of-state" },
    });
    expect(!contents.ok && contents.atLeastL).toBeCloseTo(last.usable, 9);
  });

  it("refuses what saturation refuses, and no water", () => {
    expect(refusalOf(lastLiquidContents(litre(4.8), celsius(36.37), "15C"))).toBe("above-critical");
    expect(refusalOf(lastLiquidContents(litre(0), celsius(20), "15C"))).toBe("water-capacity-unusable");
  });
});

describe("nitrous oxide by weight", () => {
  it("is 545.5 L for 1 kg at 70 F (24 L/mol over 44 g/mol), 534 at 15 C", () => {
    expect(Math.abs(answerOf(byWeight(7.35, 6.35)) - 545.5)).toBeLessThan(0.05);
    expect(Math.abs(answerOf(byWeight(7.35, 6.35, "15C")) - 534)).toBeLessThan(0.1);
    // The textbook's 22.4 L/mol is a litre at 0 C: 7 % fewer.
    expect(509.1 / answerOf(byWeight(1, 0))).toBeCloseTo(0.933, 3);
  });

  it("a full US E of 1,590 L weighs 2.915 kg, 6.43 lb", () => {
    expect(Math.abs(answerOf(byWeight(2.915, 0)) / 1_590 - 1)).toBeLessThan(0.001);
    expect(2.915 / 0.45359237).toBeCloseTo(6.43, 2);
  });

  it("a UK E of 4.68 L filled at 0.75 has 1,874 L at 15 C, 4 % over its rating of 1,800", () => {
    expect(Math.abs(answerOf(byWeight(3.51, 0, "15C")) - 1_874)).toBeLessThan(0.5);
  });

  it.each(FILLINGS)("$ratio kg/L in $water L: $litres70F L", ({ kg, ratio, water, litres70F, litres15C }) => {
    expect(Math.abs(answerOf(byWeight(kg, 0)) - litres70F)).toBeLessThan(0.08);
    expect(Math.abs(answerOf(byWeight(kg, 0, "15C")) - litres15C)).toBeLessThan(0.08);
    expect(ratio * water).toBeCloseTo(kg, 3);
  });

  it("is off by the scale on both weighings: 10 g each is 7.7 L", () => {
    const answer = byWeight(8, 6);
    if (!answer.ok || !answer.uncertainty) throw new Error("no uncertainty");
    expect(answer.uncertainty.high - answer.value).toBeCloseTo(Math.SQRT2 * 5.455, 2);
    expect(byWeight(6, 6)).toMatchObject({ ok: true, value: 0, uncertainty: { low: 0 } });
  });

  it("refuses a gross below the tare, and weights below zero", () => {
    expect(refusalOf(byWeight(6.3, 6.35))).toBe("gross-below-tare");
    expect(refusalOf(byWeight(-1, -2))).toBe("weight-unusable");
    expect(refusalOf(byWeight(1, -2))).toBe("weight-unusable");
  });
});

describe("a known filling", () => {
  const stateAt = (ratio: number, t: number) => answerOf(stateOfFill(ratio, celsius(t)));

  it.each(
    SATURATION.flatMap((row) => [
      { t: row.celsius, ratio: 0.68, ...row.filled068 },
      { t: row.celsius, ratio: 0.75, ...row.filled075 },
    ]),
  )("$ratio kg/L at $t C is $state, $psi psi", ({ t, ratio, state, liquidVolume, liquidMass, psi }) => {
    const fill = stateAt(ratio, t);
    expect(fill.state).toBe(state);
    expect(Math.abs(gaugePressureIn(fill.pressure, "psi") - psi)).toBeLessThan(0.06);
    expect(Math.abs(fill.liquidVolumeFraction - liquidVolume)).toBeLessThan(0.00006);
    expect(Math.abs(fill.liquidMassFraction - liquidMass)).toBeLessThan(0.00006);
  });

  it.each(FILLINGS)("$ratio kg/L is full of liquid at $liquidFullC C, and presses $psiAt50C psi at 50 C", (row) => {
    // The ratio of the two handbook rows is printed to 4 digits, which is 1 psi.
    expect(stateAt(row.ratio, row.liquidFullC - 0.02).state).toBe("two-phase");
    expect(stateAt(row.ratio, row.liquidFullC + 0.02).state).toBe("liquid-full");
    expect(Math.abs(gaugePressureIn(stateAt(row.ratio, 40).pressure, "psi") - row.psiAt40C)).toBeLessThan(0.6);
    expect(Math.abs(gaugePressureIn(stateAt(row.ratio, 50).pressure, "psi") - row.psiAt50C)).toBeLessThan(0.6);
  });

  it("is gas alone when little is left, and supercritical in the heat", () => {
    expect(stateAt(0.05, 20)).toMatchObject({ state: "gas", liquidVolumeFraction: 0 });
    expect(stateAt(0.05, 40).state).toBe("supercritical");
  });

  it("stays inside the 50 MPa of the equation at the fullest and hottest", () => {
    expect(stateAt(0.85, 60).pressure).toBeLessThan(5e7);
  });

  it("does not jump where the liquid comes to fill the cylinder", () => {
    let last = stateAt(0.75, 0).pressure;
    for (let t = 0.05; t <= 60; t += 0.05) {
      const { pressure } = stateAt(0.75, t);
      expect(pressure).toBeGreaterThan(last);
      expect(gaugePressureIn(pressure, "psi") - gaugePressureIn(last, "psi")).toBeLessThan(4);
      last = pressure;
    }
  });

  it("refuses a filling that no cylinder can have", () => {
    for (const ratio of [0, -0.1, 0.851, Number.NaN])
      expect(refusalOf(stateOfFill(ratio, celsius(20)))).toBe("filling-unusable");
    expect(refusalOf(stateOfFill(0.75, celsius(61)))).toBe("temperature-out-of-range");
  });
});
