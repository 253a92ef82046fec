import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { farFromHistory, usualOf } from "@/lib/domain/far-from-history";
import { quantity } from "@/lib/units/quantity";

const bars = [137, 135, 138, 136, 137].map((value) => quantity(value, "bar"));
const usual = usualOf(bars, "bar", null);

describe("a reading far from its history", () => {
  it("has a robust middle, which one slip does not move", () => {
    expect(usual).toMatchObject({ unit: "bar", count: 5, median: 137, spread: 1 });
    expect(usualOf([...bars, quantity(2000, "bar")], "bar", null)).toMatchObject({ median: 137, spread: 1 });
  });

  it("takes other units of the same kind into its own, and says nothing of fewer than four", () => {
    expect(usualOf([quantity(13_700, "kPa"), ...bars], "bar", null)?.median).toBe(137);
    expect(usualOf(bars.slice(0, 4), "bar", null)).not.toBeNull();
    expect(usualOf(bars.slice(0, 3), "bar", null)).toBeNull();
  });

  it.each([
    [2000, "psi"],
    [13_700, "kPa"],
  ] as const)("asks about %d typed where bar is read, and names %s", (value, unit) => {
    const far = farFromHistory(quantity(value, "bar"), usual);
    expect(far?.unit).toBe(unit);
    expect(far?.text).toContain("137 bar is usual here");
  });

  it("asks about bar typed where psi is read", () => {
    const psi = usualOf(
      [1990, 2000, 1980, 2010].map((value) => quantity(value, "psi")),
      "psi",
      null,
    );
    expect(farFromHistory(quantity(137, "psi"), psi)?.unit).toBe("bar");
  });

  it("asks beyond eight deviations, and not at them", () => {
    // 8 x 10 % of 137, the least deviation.
    expect(farFromHistory(quantity(27.4, "bar"), usual)).toBeNull();
    expect(farFromHistory(quantity(27.3, "bar"), usual)?.unit).toBeNull();
    // 8 x 1.4826 x 20
    const wide = usualOf(
      [100, 120, 140, 80, 60].map((value) => quantity(value, "bar")),
      "bar",
      null,
    );
    expect(farFromHistory(quantity(337.2, "bar"), wide)).toBeNull();
    expect(farFromHistory(quantity(337.3, "bar"), wide)).not.toBeNull();
  });

  it("takes the limit for its scale where the readings are small beside it: 85 mL/min after many of 5, with 100 allowed", () => {
    const small = Array.from({ length: 6 }, () => quantity(5, "mL/min"));
    const within = usualOf(small, "mL/min", quantity(100, "mL/min"));
    expect(farFromHistory(quantity(85, "mL/min"), within)).toBeNull();
    expect(farFromHistory(quantity(86, "mL/min"), within)).not.toBeNull();
    expect(farFromHistory(quantity(85, "mL/min"), usualOf(small, "mL/min", null))).not.toBeNull();
  });

  it("never asks about a reading that was the history itself", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 300, noNaN: true }), (value) => {
        const same = usualOf(
          Array.from({ length: 6 }, () => quantity(value, "bar")),
          "bar",
          null,
        );
        return farFromHistory(quantity(value, "bar"), same) === null;
      }),
    );
  });

  it("asks nothing where there is no history", () => {
    expect(farFromHistory(quantity(2000, "bar"), null)).toBeNull();
  });
});
