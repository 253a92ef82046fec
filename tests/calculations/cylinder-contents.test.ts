import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cylinderContents } from "@/lib/calculations/cylinder-contents";
import { quantity } from "@/lib/units/quantity";
import {
  REAL_GAS_4_8_L,
  UK_D_OXYGEN,
  UK_E_OXYGEN,
  US_D_OXYGEN,
  US_E_AIR,
  US_E_NITROUS_OXIDE,
  US_E_OXYGEN,
} from "@/tests/handbook/cylinders";

function litresOf(...[reading, rating]: Parameters<typeof cylinderContents>): number {
  const contents = cylinderContents(reading, rating);
  if (!contents.ok) throw new Error(`refused: ${contents.refusal}`);
  return contents.litres;
}

describe("contents of a cylinder by the handbook proportion", () => {
  it.each([
    { name: "US E, full", rating: US_E_OXYGEN, reading: quantity(1900, "psi"), litres: 660, within: 1 },
    // 660 x 1000 / 1900: the textbook method, Morgan and Mikhail (from memory).
    { name: "US E at 1,000 psi", rating: US_E_OXYGEN, reading: quantity(1000, "psi"), litres: 347.4, within: 0.1 },
    { name: "US E at 640 psi", rating: US_E_OXYGEN, reading: quantity(640, "psi"), litres: 222.3, within: 0.1 },
    // Gauge against absolute: at 0 psi the cylinder is not empty of its own 4.8 L, but none of it comes out.
    { name: "an empty gauge", rating: US_E_OXYGEN, reading: quantity(0, "psi"), litres: 0, within: 0 },
    { name: "US E of air, full", rating: US_E_AIR, reading: quantity(1900, "psi"), litres: 625, within: 1 },
    { name: "UK E, full", rating: UK_E_OXYGEN, reading: quantity(137, "bar"), litres: 680, within: 1 },
    { name: "UK E, full, read in kPa", rating: UK_E_OXYGEN, reading: quantity(13_700, "kPa"), litres: 680, within: 1 },
  ])("$name: $litres L", ({ rating, reading, litres, within }) => {
    expect(Math.abs(litresOf(reading, rating) - litres)).toBeLessThanOrEqual(within);
  });

  it("tells a US D from a UK D: the letters are the same and the cylinders are not", () => {
    expect(litresOf(US_D_OXYGEN.ratedPressure, US_D_OXYGEN)).toBe(400);
    expect(litresOf(UK_D_OXYGEN.ratedPressure, UK_D_OXYGEN)).toBe(340);
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
});

describe("what the proportion refuses", () => {
  it.each([
    {
      name: "nitrous oxide: its gauge shows vapour pressure",
      rating: US_E_NITROUS_OXIDE,
      reading: quantity(745, "psi"),
      refusal: "liquid-present",
    },
    {
      name: "nitrous oxide in the gas phase: it does not fall linearly",
      rating: US_E_NITROUS_OXIDE,
      reading: quantity(300, "psi"),
      refusal: "liquid-present",
    },
    {
      name: "a pressure below zero",
      rating: US_E_OXYGEN,
      reading: quantity(-1, "psi"),
      refusal: "pressure-below-zero",
    },
    {
      name: "a pressure over 1.5 times the rating",
      rating: US_E_OXYGEN,
      reading: quantity(2851, "psi"),
      refusal: "pressure-above-plausible",
    },
    {
      name: "a digit too many",
      rating: US_E_OXYGEN,
      reading: quantity(20_000, "psi"),
      refusal: "pressure-above-plausible",
    },
    { name: "a flow for a pressure", rating: US_E_OXYGEN, reading: quantity(8, "L/min"), refusal: "not-a-pressure" },
    {
      name: "a rating of nothing",
      rating: { ...US_E_OXYGEN, ratedContentsL: 0 },
      reading: quantity(1000, "psi"),
      refusal: "rating-unusable",
    },
    {
      name: "a rated pressure of nothing",
      rating: { ...US_E_OXYGEN, ratedPressure: quantity(0, "psi") },
      reading: quantity(1000, "psi"),
      refusal: "rating-unusable",
    },
  ])("$name", ({ rating, reading, refusal }) => {
    expect(cylinderContents(reading, rating)).toEqual({ ok: false, refusal });
  });

  it("takes 1.5 times the rating itself", () => {
    expect(cylinderContents(quantity(2850, "psi"), US_E_OXYGEN).ok).toBe(true);
  });
});
