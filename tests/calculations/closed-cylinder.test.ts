import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { closedCylinderPressure } from "@/lib/calculations/closed-cylinder";
import { CYLINDER_GASES, type CylinderGas } from "@/lib/calculations/gases";
import { saturationPressure } from "@/lib/calculations/nitrous-oxide";
import { celsius, pascalAbsolute } from "@/lib/units/measure";
import { gaugePressureIn } from "@/lib/units/pressure";
import { celsiusOf } from "@/lib/units/temperature";
import { GAUGE_AT_TEMPERATURE } from "@/tests/handbook/gauge-at-temperature";
import { answerOf, refusalOf } from "@/tests/support/calculated";

const ask = (gas: CylinderGas, psi: number, from: number, to: number) =>
  closedCylinderPressure({ gas, pressure: { value: psi, unit: "psi" }, from: celsius(from), to: celsius(to) });
const psiAt = (gas: CylinderGas, psi: number, from: number, to: number): number =>
  gaugePressureIn(answerOf(ask(gas, psi, from, to)), "psi");
const saturationPsi = (t: number): number => gaugePressureIn(answerOf(saturationPressure(celsius(t))), "psi");

describe("the gauge of a closed cylinder at another temperature", () => {
  it.each(GAUGE_AT_TEMPERATURE)("%s of %d psi at 70 F, at %d C: %d psi", (gas, filled, t, psi) => {
    expect(Math.abs(psiAt(gas, filled, celsiusOf(70, "F"), t) - psi)).toBeLessThan(0.006);
  });

  it("of oxygen filled to 1,900 psi at 21.1 C: 1,801 at 10 C, 1,846 at 15, 1,998 at 32, 2,067 at 40", () => {
    for (const [t, psi] of [
      [10, 1801],
      [15, 1846],
      [32, 1997],
      [40, 2067],
    ] as const)
      expect(Math.abs(psiAt("oxygen", 1_900, 21.1, t) - psi)).toBeLessThanOrEqual(1);
  });

  it("comes back to where it was", () => {
    const t = fc.double({ min: -20, max: 60, noNaN: true });
    fc.assert(
      fc.property(
        fc.constantFrom("oxygen", "air"),
        fc.double({ min: 0, max: 2_900, noNaN: true }),
        t,
        t,
        (gas, psi, from, to) => {
          const there = psiAt(gas, psi, from, to);
          // An empty cylinder that grows cold has less than ambient pressure inside: no gauge shows that.
          if (there < 0 || there > 4_300) return;
          expect(psiAt(gas, there, to, from)).toBeCloseTo(psi, 6);
        },
      ),
      { numRuns: 1_000 },
    );
  });

  it("rises with the temperature", () => {
    const t = fc.double({ min: -20, max: 60, noNaN: true });
    fc.assert(
      fc.property(
        fc.constantFrom("oxygen", "air"),
        fc.double({ min: 10, max: 2_900, noNaN: true }),
        t,
        t,
        t,
        (gas, psi, from, one, other) => {
          if (Math.abs(one - other) < 1e-6) return;
          expect(psiAt(gas, psi, from, Math.max(one, other))).toBeGreaterThan(
            psiAt(gas, psi, from, Math.min(one, other)),
          );
        },
      ),
    );
  });

  it("does not move at the same temperature, whatever the gas", () => {
    for (const gas of CYLINDER_GASES) expect(psiAt(gas, 745, 20, 20)).toBeCloseTo(745, 9);
  });
});

describe("nitrous oxide in a closed cylinder", () => {
  it("stays gas when it grows warm", () => {
    // 400 psi at 20 C is gas; at 40 C it follows the equation, a little more than the ideal 428.
    const warm = psiAt("nitrous-oxide", 400, 20, 40);
    expect(warm).toBeGreaterThan(428);
    expect(warm).toBeLessThan(460);
  });

  it("condenses when it grows cold, and then shows the saturation pressure", () => {
    expect(psiAt("nitrous-oxide", 700, 20, 0)).toBeCloseTo(saturationPsi(0), 6);
    expect(psiAt("nitrous-oxide", 100, 20, 0)).toBeLessThan(saturationPsi(0) / 3);
  });

  it("with liquid left shows the saturation pressure when it grows cold", () => {
    for (const psi of [718.11, 745]) expect(psiAt("nitrous-oxide", psi, 20, 10)).toBeCloseTo(saturationPsi(10), 6);
  });

  it("with liquid left cannot tell when it grows warm: the last may go, or it may fill the cylinder", () => {
    const answer = ask("nitrous-oxide", 718.11, 20, 30);
    expect(refusalOf(answer)).toBe("liquid-present");
    const atLeast = answer.ok ? undefined : answer.atLeastPa;
    if (atLeast === undefined) throw new Error("no floor");
    // Saturated vapor of 20 C alone, warmed to 30 C: below saturation there.
    expect(gaugePressureIn(atLeast, "psi")).toBeGreaterThan(718.11);
    expect(gaugePressureIn(atLeast, "psi")).toBeLessThan(saturationPsi(30));
  });

  it("well above saturation cannot tell even when it grows cold: it may be full of liquid", () => {
    expect(refusalOf(ask("nitrous-oxide", 2_200, 20, 15))).toBe("liquid-present");
  });

  it("cooled from above the critical temperature shows saturation if part of it condenses", () => {
    expect(psiAt("nitrous-oxide", 1_000, 40, 20)).toBeCloseTo(saturationPsi(20), 6);
    expect(psiAt("nitrous-oxide", 200, 40, 20)).toBeLessThan(200);
  });
});

describe("what is refused", () => {
  it.each([
    ["pressure-below-zero", -1, 20, 10],
    ["pressure-out-of-range", 5_000, 20, 10],
    ["temperature-out-of-range", 1_900, -21, 10],
    ["temperature-out-of-range", 1_900, 20, 61],
  ] as const)("%s", (refusal, psi, from, to) => {
    expect(refusalOf(ask("oxygen", psi, from, to))).toBe(refusal);
  });

  it("says which of the two temperatures is meant", () => {
    const answer = ask("oxygen", 1_900, 20, 61);
    expect(answer).toMatchObject({ ok: false, message: expect.stringContaining("second temperature 61 C") });
  });

  it("an ambient pressure that no place has", () => {
    const odd = { gas: "oxygen", pressure: { value: 1, unit: "bar" }, from: celsius(20), to: celsius(10) } as const;
    expect(refusalOf(closedCylinderPressure({ ...odd, ambient: pascalAbsolute(10) }))).toBe("ambient-out-of-range");
  });

  it("nothing else, and never an answer that is no number", () => {
    const t = fc.double({ min: -20, max: 60, noNaN: true });
    fc.assert(
      fc.property(
        fc.constantFrom(...CYLINDER_GASES),
        fc.double({ min: 0, max: 4_300, noNaN: true }),
        t,
        t,
        (gas, psi, from, to) => {
          const answer = ask(gas, psi, from, to);
          if (answer.ok) expect(Number.isFinite(answer.value)).toBe(true);
          else expect(refusalOf(answer)).toBe("liquid-present");
        },
      ),
      { numRuns: 2_000 },
    );
  });
});
