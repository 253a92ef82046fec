import { describe, expect, it } from "vitest";
import { cylinderContents } from "@/lib/calculations/cylinder-contents";
import { enduranceMinutes } from "@/lib/calculations/endurance";
import { minutesByHand } from "@/lib/domain/endurance";
import { withValues } from "@/lib/domain/rules/examples";
import { quantity } from "@/lib/units/quantity";
import { US_E_OXYGEN } from "@/tests/handbook/cylinders";
import { cylinderOf, readyRoom } from "@/tests/support/ready-room";

const litres = (psi: number): number => {
  const contents = cylinderContents(quantity(psi, "psi"), US_E_OXYGEN);
  if (!contents.ok) throw new Error(contents.refusal);
  return contents.litres;
};

describe("how long a content lasts", () => {
  it("is 55.6 min for a US E at 1,000 psi, residual 200 psi, 5 L/min, by the proportion", () => {
    // (1000 - 200) x 660 / 1900 / 5; the factor method gives 44.8 and the real gas 54.9 (computed).
    expect(enduranceMinutes(litres(1000), litres(200), 5)).toEqual({ ok: true, minutes: expect.closeTo(55.58, 2) });
  });

  it("is 340 min for 340 L at 1 L/min", () => {
    expect(enduranceMinutes(340, 0, 1)).toEqual({ ok: true, minutes: 340 });
  });

  it("is 70 min for 280 L at 4 L/min", () => {
    // A public calculator's worked example: E cylinder, 1,200 psi, residual 200, factor 0.28, 4 L/min.
    expect(enduranceMinutes(280, 0, 4)).toEqual({ ok: true, minutes: 70 });
  });

  it("is 26.9 min for 280 L at 9.4 L/min of drive gas and 1.0 L/min of fresh gas", () => {
    expect(enduranceMinutes(280, 0, 10.4)).toEqual({ ok: true, minutes: expect.closeTo(26.9, 1) });
  });

  it("is 0 below the residual, never negative", () => {
    expect(enduranceMinutes(litres(150), litres(200), 5)).toEqual({ ok: true, minutes: 0 });
  });

  it("has no answer at no flow", () => {
    expect(enduranceMinutes(660, 0, 0)).toEqual({ ok: false, refusal: "no-consumption" });
  });

  it.each([
    { what: "a negative flow", given: [660, 0, -1], refusal: "not-a-flow" },
    { what: "a flow that is no number", given: [660, 0, Number.NaN], refusal: "not-a-flow" },
    { what: "a negative content", given: [-1, 0, 5], refusal: "not-a-content" },
    { what: "an endless content", given: [Number.POSITIVE_INFINITY, 0, 5], refusal: "not-a-content" },
  ] as const)("refuses $what", ({ given: [contents, residual, flow], refusal }) => {
    expect(enduranceMinutes(contents, residual, flow)).toEqual({ ok: false, refusal });
  });
});

describe("minutes by hand of a fitted cylinder", () => {
  const ready = readyRoom("US");
  const oxygen = cylinderOf(ready, "oxygen");
  const nitrousOxide = cylinderOf(ready, "nitrous-oxide");

  it("is rounded down, at 8 L/min to 200 psi", () => {
    // (1900 - 200) x 660 / 1900 / 8 = 73.8
    expect(minutesByHand(quantity(1900, "psi"), oxygen, ready)).toBe(73);
  });

  it("follows the site's flow and residual", () => {
    const site = withValues(ready, "endurance", { byHandFlow: quantity(5, "L/min"), residual: quantity(0, "psi") });
    expect(minutesByHand(quantity(1900, "psi"), oxygen, site)).toBe(132);
  });

  it("is not told for nitrous oxide, nor for a reading that cannot be", () => {
    expect(minutesByHand(quantity(745, "psi"), nitrousOxide, ready)).toBeNull();
    expect(minutesByHand(quantity(20_000, "psi"), oxygen, ready)).toBeNull();
  });
});
