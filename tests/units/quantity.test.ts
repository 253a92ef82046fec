import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { PRESSURE_UNITS, pressureIn } from "@/lib/units/pressure";
import { isAbove, isBelow, quantity, valueIn } from "@/lib/units/quantity";

describe("pressures in another unit", () => {
  // Computed from the definitions of the units; 400 kPa is the UK pipeline of an FRCA tutorial on gas supply.
  it.each([
    { of: 50, from: "psi", to: "kPa", is: 344.74, within: 0.01 },
    { of: 45, from: "psi", to: "kPa", is: 310.26, within: 0.01 },
    { of: 55, from: "psi", to: "kPa", is: 379.21, within: 0.01 },
    { of: 400, from: "kPa", to: "psi", is: 58.02, within: 0.01 },
    { of: 30, from: "cmH2O", to: "kPa", is: 2.942, within: 0.001 },
    { of: 1000, from: "psi", to: "bar", is: 68.95, within: 0.01 },
    { of: 1900, from: "psi", to: "bar", is: 131.0, within: 0.05 },
    { of: 137, from: "bar", to: "psi", is: 1987, within: 0.5 },
    { of: 60, from: "kPa", to: "mmHg", is: 450.04, within: 0.01 },
    { of: 500, from: "mmHg", to: "kPa", is: 66.66, within: 0.01 },
    { of: 12, from: "inHg", to: "kPa", is: 40.64, within: 0.01 },
  ] as const)("$of $from is $is $to", ({ of, from, to, is, within }) => {
    expect(Math.abs(pressureIn(of, from, to) - is)).toBeLessThanOrEqual(within);
  });

  it("comes back to itself from any unit", () => {
    const unit = fc.constantFrom(...PRESSURE_UNITS);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e6, noNaN: true }), unit, unit, (value, from, to) => {
        expect(pressureIn(pressureIn(value, from, to), to, from)).toBeCloseTo(value, 6);
      }),
    );
  });
});

describe("a quantity", () => {
  it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])("is never %s", (value) => {
    expect(() => quantity(value, "psi")).toThrow(RangeError);
  });

  it("passes through untouched in its own unit, so that a limit meets a reading exactly", () => {
    expect(valueIn(quantity(0.1 + 0.2, "psi"), "psi")).toBe(0.1 + 0.2);
  });

  it("has no value in a unit that measures something else", () => {
    expect(valueIn(quantity(1, "psi"), "L/min")).toBeNull();
    expect(isBelow(quantity(1, "s"), quantity(2, "psi"))).toBeNull();
    expect(isAbove(quantity(1, "%"), quantity(2, "mL/min"))).toBeNull();
  });

  it("is neither below nor above itself, and compares across units", () => {
    expect(isBelow(quantity(320, "kPa"), quantity(320, "kPa"))).toBe(false);
    expect(isAbove(quantity(320, "kPa"), quantity(320, "kPa"))).toBe(false);
    expect(isBelow(quantity(3.2, "bar"), quantity(320, "kPa"))).toBe(false);
    expect(isBelow(quantity(3.19, "bar"), quantity(320, "kPa"))).toBe(true);
    expect(isAbove(quantity(5.51, "bar"), quantity(550, "kPa"))).toBe(true);
  });
});
