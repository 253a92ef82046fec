import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { stateAt } from "@/lib/calculations/equation-of-state/density";
import { at } from "@/lib/calculations/equation-of-state/isotherms";
import { saturationOf } from "@/lib/calculations/equation-of-state/saturation";
import { CYLINDER_GASES, FLUIDS } from "@/lib/calculations/gases";
import { ATMOSPHERE } from "@/lib/calculations/reference-conditions";
import { celsius, type Kelvin, kelvin, type PascalAbsolute, pascalAbsolute } from "@/lib/units/measure";
import { kelvinOf } from "@/lib/units/temperature";
import { SATURATION } from "@/tests/handbook/nitrous-oxide";

const N2O = FLUIDS["nitrous-oxide"];
const gas = fc.constantFrom(...CYLINDER_GASES);
const anyCelsius = fc.double({ min: -20, max: 60, noNaN: true });
const anyPressure = fc.double({ min: 0, max: 3e7, noNaN: true }).map((gauge) => pascalAbsolute(gauge + ATMOSPHERE));

/** How far the pressure of the density found is from the pressure asked for, of one; 0 on the saturation line. */
function miss(of: (typeof CYLINDER_GASES)[number], pressure: PascalAbsolute, t: Kelvin): number {
  const state = stateAt(FLUIDS[of], pressure, t);
  if (state.phase === "two-phase") return Math.abs(state.saturation.pressure / pressure - 1);
  return Math.abs(at(FLUIDS[of], t).pressure(state.density) / pressure - 1);
}

describe("density from pressure", () => {
  it("comes back to the pressure over the whole domain", () => {
    fc.assert(
      fc.property(gas, anyPressure, anyCelsius, (of, pressure, t) => miss(of, pressure, kelvinOf(celsius(t))) < 1e-9),
      { numRuns: 3_000 },
    );
  });

  it("comes back to the pressure on a grid with every corner", () => {
    for (const of of CYLINDER_GASES)
      for (let t = -20; t <= 60; t += 0.5)
        for (let bar = 0; bar <= 300; bar += 4)
          expect(miss(of, pascalAbsolute(bar * 1e5 + ATMOSPHERE), kelvinOf(celsius(t)))).toBeLessThan(1e-9);
  });

  it("ends close to the critical point of nitrous oxide", () => {
    for (let t = 309.3; t <= 309.8; t += 0.001)
      for (let kilopascal = 7_150; kilopascal <= 7_350; kilopascal += 5)
        expect(miss("nitrous-oxide", pascalAbsolute(kilopascal * 1_000), kelvin(t))).toBeLessThan(1e-9);
  });

  it("rises with the pressure", () => {
    fc.assert(
      fc.property(gas, anyPressure, anyPressure, anyCelsius, (of, one, other, t) => {
        const found = [Math.min(one, other), Math.max(one, other)].map((p) =>
          stateAt(FLUIDS[of], pascalAbsolute(p), kelvinOf(celsius(t))),
        );
        const [low, high] = found;
        if (!low || !high || low.phase === "two-phase" || high.phase === "two-phase") return;
        expect(high.density).toBeGreaterThanOrEqual(low.density * (1 - 1e-12));
      }),
      { numRuns: 2_000 },
    );
  });

  it("is gas below saturation and liquid above it, apart by the difference of the two", () => {
    for (let t = -20; t < 36; t += 1) {
      const temperature = kelvinOf(celsius(t));
      const saturation = saturationOf(at(N2O, temperature));
      if (!saturation) throw new Error("no saturation");
      const below = stateAt(N2O, pascalAbsolute(saturation.pressure * 0.999_999), temperature);
      const above = stateAt(N2O, pascalAbsolute(saturation.pressure * 1.000_001), temperature);
      if (below.phase !== "gas" || above.phase !== "liquid") throw new Error(`${below.phase}, ${above.phase}`);
      expect(below.density / saturation.vapor).toBeCloseTo(1, 3);
      expect(above.density / saturation.liquid).toBeCloseTo(1, 3);
      expect(stateAt(N2O, saturation.pressure, temperature).phase).toBe("two-phase");
    }
  });
});

describe("liquid and vapor in balance", () => {
  it.each(SATURATION)("at $celsius C nitrous oxide has $psi psi", ({ celsius: t, kPaAbsolute, liquid, vapor }) => {
    const saturation = saturationOf(at(N2O, kelvinOf(celsius(t))));
    if (!saturation) throw new Error("no saturation");
    expect(Math.abs(saturation.pressure / 1_000 - kPaAbsolute)).toBeLessThan(0.001);
    expect(Math.abs(saturation.liquid * N2O.molarMass * 1e-3 - liquid)).toBeLessThan(0.001);
    expect(Math.abs(saturation.vapor * N2O.molarMass * 1e-3 - vapor)).toBeLessThan(0.0001);
  });

  it("balances at every temperature up to the critical one, and rises all the way", () => {
    let [lastAt, last] = [0, 0];
    const temperatures = Array.from({ length: 5_637 }, (_, n) => 253.15 + n / 100);
    for (const t of [...temperatures, 309.519, 309.5195, 309.5199, 309.51999]) {
      const isotherm = at(N2O, kelvin(t));
      const saturation = saturationOf(isotherm);
      if (!saturation) throw new Error(`no saturation at ${t} K`);
      expect(Math.abs(isotherm.pressure(saturation.liquid) / saturation.pressure - 1)).toBeLessThan(1e-9);
      expect(Math.abs(isotherm.potential(saturation.liquid) - isotherm.potential(saturation.vapor))).toBeLessThan(1e-9);
      expect(saturation.liquid).toBeGreaterThan(saturation.vapor * 1.01);
      if (t > lastAt) expect(saturation.pressure).toBeGreaterThan(last);
      last = saturation.pressure;
      lastAt = t;
    }
  });

  it("stays close to the published estimate of the vapor pressure", () => {
    // Lemmon and Span 2006, ancillary equation; within 0.0025 % of the balance between -10 and 36 C.
    const estimate = (t: number) => {
      const theta = 1 - t / 309.52;
      const sum =
        -6.9078 * theta + 2.662 * theta ** 1.5 - 2.2386 * theta ** 1.9 - 3.8002 * theta ** 4.8 + 0.76922 * theta ** 5.8;
      return 7.245e6 * Math.exp((309.52 / t) * sum);
    };
    for (let t = 263.15; t <= 309.2; t += 0.1)
      expect(Math.abs(estimate(t) / (saturationOf(at(N2O, kelvin(t)))?.pressure ?? 0) - 1)).toBeLessThan(2.6e-5);
  });

  it("is not there above the critical temperature, nor for oxygen and air", () => {
    expect(saturationOf(at(N2O, kelvin(309.52)))).toBeNull();
    expect(saturationOf(at(FLUIDS.oxygen, kelvin(253.15)))).toBeNull();
    expect(saturationOf(at(FLUIDS.air, kelvin(253.15)))).toBeNull();
  });
});
