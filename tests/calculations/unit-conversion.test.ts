import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CONVERTIBLE_UNITS, convertUnit } from "@/lib/calculations/unit-conversion";
import { PRESSURE_UNITS } from "@/lib/units/pressure";
import { TEMPERATURE_UNITS } from "@/lib/units/temperature";
import { VOLUME_UNITS } from "@/lib/units/volume";
import { answerOf, refusalOf } from "@/tests/support/calculated";

describe("a value in another unit", () => {
  // By the definitions: pound 0.45359237 kg, inch 0.0254 m, standard gravity 9.80665 m/s2, conventional mercury 13,595.1 kg/m3 and water
  // 1,000 kg/m3 (NIST Special Publication 811, appendix B, from memory).
  it.each([
    [1, "psi", "kPa", 6.894757293168361],
    [1, "bar", "kPa", 100],
    [1, "bar", "psi", 14.503773773020923],
    [1, "inHg", "kPa", 3.386388640341],
    [760, "mmHg", "kPa", 101.3250144354],
    [1, "cmH2O", "kPa", 0.0980665],
    [1, "kPa", "cmH2O", 10.197162129779283],
    [1, "inHg", "mmHg", 25.4],
    [1.5, "L", "mL", 1_500],
    [250, "mL", "L", 0.25],
    [70, "F", "C", 190 / 9],
    [-40, "C", "F", -40],
    [37, "C", "F", 98.6],
    [21.1, "C", "K", 294.25],
    [0, "K", "C", -273.15],
    [0, "K", "F", -459.67],
    [300, "K", "F", 80.33],
  ] as const)("%d %s is, in %s, %d", (value, from, to, is) => {
    const converted = answerOf(convertUnit(value, from, to));
    expect(Math.abs(converted - is)).toBeLessThanOrEqual(1e-12 * Math.max(1, Math.abs(is)));
  });

  it("comes back to itself", () => {
    const pair = fc.oneof(
      ...[PRESSURE_UNITS, VOLUME_UNITS, TEMPERATURE_UNITS].map((units) =>
        fc.tuple(fc.constantFrom(...units), fc.constantFrom(...units)),
      ),
    );
    fc.assert(
      fc.property(pair, fc.double({ min: 0, max: 1e6, noNaN: true }), ([from, to], value) => {
        const there = answerOf(convertUnit(value, from, to));
        expect(Math.abs(answerOf(convertUnit(there, to, from)) - value)).toBeLessThanOrEqual(1e-9 * Math.max(1, value));
      }),
    );
  });

  it("passes the same unit through untouched", () => {
    for (const unit of CONVERTIBLE_UNITS) expect(answerOf(convertUnit(0.1, unit, unit))).toBe(0.1);
  });

  it("refuses units of two kinds, what is no number, and what is colder than can be", () => {
    expect(refusalOf(convertUnit(1, "psi", "L"))).toBe("units-of-two-kinds");
    expect(refusalOf(convertUnit(1, "mL", "C"))).toBe("units-of-two-kinds");
    expect(refusalOf(convertUnit(1, "K", "bar"))).toBe("units-of-two-kinds");
    expect(refusalOf(convertUnit(Number.NaN, "psi", "bar"))).toBe("not-a-number");
    expect(refusalOf(convertUnit(Number.MAX_VALUE, "bar", "cmH2O"))).toBe("not-a-number");
    expect(refusalOf(convertUnit(-273.16, "C", "K"))).toBe("below-absolute-zero");
    expect(refusalOf(convertUnit(-459.68, "F", "C"))).toBe("below-absolute-zero");
    expect(refusalOf(convertUnit(-0.01, "K", "C"))).toBe("below-absolute-zero");
    expect(answerOf(convertUnit(-459.67, "F", "K"))).toBeCloseTo(0, 9);
  });
});
