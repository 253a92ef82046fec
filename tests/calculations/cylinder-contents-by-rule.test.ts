import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cylinderContents } from "@/lib/calculations/cylinder-contents";
import { celsius } from "@/lib/units/measure";
import type { PressureUnit } from "@/lib/units/pressure";
import { type Quantity, quantity } from "@/lib/units/quantity";
import {
  REAL_GAS_4_8_L,
  UK_D_OXYGEN,
  UK_E_OXYGEN,
  US_D_OXYGEN,
  US_E_AIR,
  US_E_NITROUS_OXIDE,
  US_E_OXYGEN,
} from "@/tests/handbook/cylinders";
import { answerOf, refusalOf } from "@/tests/support/calculated";

type Rating = typeof US_E_OXYGEN;

const contentsOf = (pressure: Quantity<PressureUnit>, { gas, rated, ratedPressure }: Rating) =>
  cylinderContents({
    gas,
    pressure,
    temperature: celsius(21.1),
    reference: "70F-1atm",
    method: { kind: "proportion", rated, ratedPressure },
  });
const litresOf = (pressure: Quantity<PressureUnit>, rating: Rating): number => answerOf(contentsOf(pressure, rating));

describe("contents of a cylinder by the handbook proportion", () => {
  it.each([
    { name: "US E, full", rating: US_E_OXYGEN, reading: quantity(1900, "psi"), litres: 660, within: 1e-9 },
    // 660 x 1000 / 1900: the textbook method, Morgan and Mikhail (from memory).
    { name: "US E at 1,000 psi", rating: US_E_OXYGEN, reading: quantity(1000, "psi"), litres: 347.4, within: 0.1 },
    { name: "US E at 640 psi", rating: US_E_OXYGEN, reading: quantity(640, "psi"), litres: 222.3, within: 0.1 },
    // Gauge against absolute: at 0 psi the cylinder is not empty of its own 4.8 L, but none of it comes out.
    { name: "an empty gauge", rating: US_E_OXYGEN, reading: quantity(0, "psi"), litres: 0, within: 0 },
    { name: "US E of air, full", rating: US_E_AIR, reading: quantity(1900, "psi"), litres: 625, within: 1e-9 },
    { name: "UK E, full", rating: UK_E_OXYGEN, reading: quantity(137, "bar"), litres: 680, within: 1e-9 },
    {
      name: "UK E, full, read in kPa",
      rating: UK_E_OXYGEN,
      reading: quantity(13_700, "kPa"),
      litres: 680,
      within: 1e-9,
    },
  ])("$name: $litres L", ({ rating, reading, litres, within }) => {
    expect(Math.abs(litresOf(reading, rating) - litres)).toBeLessThanOrEqual(within);
  });

  it("tells a US D from a UK D: the letters are the same and the cylinders are not", () => {
    expect(litresOf(US_D_OXYGEN.ratedPressure, US_D_OXYGEN)).toBeCloseTo(400, 9);
    expect(litresOf(UK_D_OXYGEN.ratedPressure, UK_D_OXYGEN)).toBeCloseTo(340, 9);
  });

  it.each(REAL_GAS_4_8_L)("stays within its stated error of the real gas at $psi psi", ({ psi, litres }) => {
    const error = litresOf(quantity(psi, "psi"), US_E_OXYGEN) / litres - 1;
    expect(error).toBeGreaterThan(-0.005);
    expect(error).toBeLessThan(0.055);
  });

  it("never falls as the pressure rises", () => {
    const pressure = fc.double({ min: 0, max: 2800, noNaN: true });
    fc.assert(
      fc.property(pressure, pressure, (one, other) => {
        const [low, high] = one < other ? [one, other] : [other, one];
        expect(litresOf(quantity(low, "psi"), US_E_OXYGEN)).toBeLessThanOrEqual(
          litresOf(quantity(high, "psi"), US_E_OXYGEN),
        );
      }),
    );
  });

  it("takes 1.5 times the rating itself, and no more", () => {
    expect(contentsOf(quantity(2850, "psi"), US_E_OXYGEN).ok).toBe(true);
    expect(refusalOf(contentsOf(quantity(2851, "psi"), US_E_OXYGEN))).toBe("pressure-out-of-range");
  });

  it("is not for nitrous oxide, with liquid or without", () => {
    for (const psi of [745, 300])
      expect(refusalOf(contentsOf(quantity(psi, "psi"), US_E_NITROUS_OXIDE))).toBe("not-for-nitrous-oxide");
  });
});
