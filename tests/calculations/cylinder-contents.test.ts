import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Contents,
  type ContentsMethod,
  type ContentsRequest,
  cylinderContents,
} from "@/lib/calculations/cylinder-contents";
import { CYLINDER_GASES, type CylinderGas } from "@/lib/calculations/gases";
import { REFERENCES } from "@/lib/calculations/reference-conditions";
import { celsius, litre, pascalAbsolute } from "@/lib/units/measure";
import { PRESSURE_UNITS, type PressureUnit, pressureIn } from "@/lib/units/pressure";
import { CONTENTS_PER_LITRE } from "@/tests/handbook/contents-by-equation";
import { GAS_PHASE_AT_20_C, SATURATION } from "@/tests/handbook/nitrous-oxide";
import { answerOf, refusalOf } from "@/tests/support/calculated";

const BY_EQUATION: ContentsMethod = { kind: "equation-of-state" };
const BY_PROPORTION: ContentsMethod = {
  kind: "proportion",
  rated: litre(660),
  ratedPressure: { value: 1_900, unit: "psi" },
};
const BY_FACTOR: ContentsMethod = { kind: "factor", litresPerPsi: 0.28 };

function request(over: Partial<ContentsRequest> & { readonly psi?: number } = {}): ContentsRequest {
  const { psi = 1_900, ...rest } = over;
  return {
    gas: "oxygen",
    pressure: { value: psi, unit: "psi" },
    temperature: celsius(21.1),
    waterCapacity: litre(4.8),
    reference: "70F-1atm",
    method: BY_EQUATION,
    ...rest,
  };
}

const litres = (over: Parameters<typeof request>[0]): number => answerOf(cylinderContents(request(over)));

describe("usable contents by the equation of state", () => {
  const gasRows = CONTENTS_PER_LITRE.filter(([gas, , , , phase]) => gas !== "nitrous-oxide" || phase !== "liquid");

  it.each(gasRows)(
    "%s at %d C, %s %d (%s)",
    (gas, t, unit, gauge, _phase, _total70F, usable70F, _total15C, usable15C) => {
      const usable = (reference: (typeof REFERENCES)[number]) =>
        litres({ gas, temperature: celsius(t), pressure: { value: gauge, unit }, waterCapacity: litre(1), reference });
      // The table prints 4 decimals.
      expect(Math.abs(usable("70F-1atm") - usable70F)).toBeLessThan(0.00006);
      expect(Math.abs(usable("15C") - usable15C)).toBeLessThan(0.00006);
    },
  );

  it("covers all of the table but the liquid rows", () => {
    expect(CONTENTS_PER_LITRE).toHaveLength(144);
    expect(gasRows).toHaveLength(144 - 26);
  });

  it.each(GAS_PHASE_AT_20_C.slice(0, -1))("nitrous oxide in the gas phase at 20 C, %d psi", (psi, _z, usable) => {
    const found = litres({ gas: "nitrous-oxide", psi, temperature: celsius(20) });
    expect(Math.abs(found / usable - 1)).toBeLessThan(1e-4 + 0.005 / usable);
  });

  // The worked examples: a US E cylinder of 4.8 L at 21.1 C, and a UK E of 4.68 L at 15 C.
  it.each([
    [1_900, 660.2],
    [2_200, 766.2],
    [500, 167.1],
    [200, 66.0],
    [1_000, 340],
  ])("a US E cylinder at %d psi has %d L", (psi, usable) => {
    expect(Math.abs(litres({ psi }) - usable)).toBeLessThan(0.5);
  });

  it("a UK E cylinder at 137 bar and 15 C gives the handbook's 680 L, of the 684 that are in it", () => {
    const found = litres({
      pressure: { value: 137, unit: "bar" },
      temperature: celsius(15),
      waterCapacity: litre(4.68),
      reference: "15C",
    });
    expect(Math.abs(found - 680)).toBeLessThan(0.5);
    expect(Math.abs(found + 4.68 - 684)).toBeLessThan(0.5);
  });

  it("counts what flows out and not what stays: 0 L at 0 on the gauge", () => {
    for (const gas of CYLINDER_GASES) expect(litres({ gas, psi: 0 })).toBe(0);
  });

  it("asks for the barometer of the place: the same gauge holds less gas where the air is thinner", () => {
    const here = litres({});
    const high = litres({ ambient: pascalAbsolute(80_000) });
    // The gauge pressure is the same; what differs is the compressibility at a slightly lower absolute pressure.
    expect(high).not.toBe(here);
    expect(Math.abs(high / here - 1)).toBeLessThan(0.002);
  });
});

describe("liquid nitrous oxide", () => {
  const answer = (psi: number, t: number) =>
    cylinderContents(request({ gas: "nitrous-oxide", psi, temperature: celsius(t), waterCapacity: litre(1) }));
  const floorOf = (contents: Contents): number => (contents.ok ? Number.NaN : (contents.atLeastL ?? Number.NaN));

  it.each(SATURATION)("at $celsius C, $psi psi: at least $lastLiquidUsable L for each litre of water", (row) => {
    const contents = answer(row.psi, row.celsius);
    expect(refusalOf(contents)).toBe("liquid-present");
    expect(Math.abs(floorOf(contents) - row.lastLiquidUsable)).toBeLessThan(0.0006);
  });

  it("keeps the same floor above saturation: the handbook's 745 psi at 20 C, and a cylinder full of liquid", () => {
    for (const psi of [718.11, 745, 1_000, 2_200]) {
      const contents = answer(psi, 20);
      expect(refusalOf(contents)).toBe("liquid-present");
      expect(floorOf(contents)).toBeCloseTo(85.176, 3);
    }
  });

  it("refuses every liquid row of the table", () => {
    const rows = CONTENTS_PER_LITRE.filter(([gas, , , , phase]) => gas === "nitrous-oxide" && phase === "liquid");
    expect(rows).toHaveLength(26);
    for (const [, t, unit, gauge] of rows)
      expect(
        refusalOf(
          cylinderContents(
            request({ gas: "nitrous-oxide", temperature: celsius(t), pressure: { value: gauge, unit } }),
          ),
        ),
      ).toBe("liquid-present");
  });

  it("counts a reading within 0.2 % of saturation as liquid: 44 bar at 15 C is a full ISO cylinder", () => {
    expect(refusalOf(answer(638.2, 15))).toBe("liquid-present");
    expect(refusalOf(answer(717, 20))).toBe("liquid-present");
    expect(answer(716, 20).ok).toBe(true);
  });

  it("has a floor less than 1 % above what gas alone would be at the last reading that counts as gas", () => {
    const gas = answer(716.4, 20);
    const liquid = answer(716.8, 20);
    if (!gas.ok) throw new Error("refused");
    expect(floorOf(liquid) / gas.value).toBeLessThan(1.01);
  });

  it("says below saturation that the cylinder may yet be full, where the gauge cannot tell", () => {
    const near = answer(700, 20);
    const far = answer(400, 20);
    if (!near.ok || !far.ok) throw new Error("refused");
    expect(near.uncertainty?.high).toBeGreaterThan(400);
    expect(near.uncertainty?.because).toContain("liquid may remain");
    expect(far.uncertainty?.high).toBeLessThan(far.value * 1.35);
  });

  it("has no liquid above its critical temperature", () => {
    expect(answer(2_200, 40).ok).toBe(true);
    expect(answer(1_036, 36.37).ok).toBe(true);
    expect(refusalOf(answer(1_036, 36.36))).toBe("liquid-present");
  });
});

describe("handbook proportion and tank factor", () => {
  it("the proportion gives 347.4 L for 660 L at 1,900 psi when the gauge shows 1,000", () => {
    expect(litres({ psi: 1_000, method: BY_PROPORTION })).toBeCloseTo(347.4, 1);
    expect(litres({ psi: 1_900, method: BY_PROPORTION })).toBeCloseTo(660, 9);
  });

  it("the factor 0.28 gives 280 L at 1,000 psi", () => {
    expect(litres({ psi: 1_000, method: BY_FACTOR })).toBeCloseTo(280, 9);
  });

  it("the answer names its method, and neither needs the water capacity", () => {
    const named = [BY_EQUATION, BY_PROPORTION, BY_FACTOR].map((method) => {
      const contents = cylinderContents(request({ method }));
      return contents.ok ? contents.method : contents.refusal;
    });
    expect(named).toEqual(["equation of state", "proportion", "factor"]);
    const { waterCapacity: _none, ...without } = request({ method: BY_FACTOR });
    expect(cylinderContents(without).ok).toBe(true);
  });

  it.each(["oxygen", "air"] as const)("the equation lies inside what the proportion says of itself, for %s", (gas) => {
    // Handbook ratings of a US E cylinder; water 4.8 L.
    const rated = litre(gas === "oxygen" ? 660 : 625);
    for (let psi = 100; psi <= 2_200; psi += 50) {
      const byRule = cylinderContents(
        request({
          gas,
          psi,
          method: { ...BY_PROPORTION, kind: "proportion", rated, ratedPressure: { value: 1_900, unit: "psi" } },
          accuracy: { gaugeClass: 0, temperatureK: 0 },
        }),
      );
      if (!byRule.ok || !byRule.uncertainty) throw new Error("refused");
      const real = litres({ gas, psi });
      expect(real).toBeGreaterThanOrEqual(byRule.uncertainty.low);
      expect(real).toBeLessThanOrEqual(byRule.uncertainty.high);
    }
  });

  it("the equation lies inside what the factor of an E cylinder says of itself", () => {
    for (let psi = 100; psi <= 2_200; psi += 50) {
      const byRule = cylinderContents(
        request({ psi, method: BY_FACTOR, accuracy: { gaugeClass: 0, temperatureK: 0 } }),
      );
      if (!byRule.ok || !byRule.uncertainty) throw new Error("refused");
      const real = litres({ psi });
      expect(real).toBeGreaterThanOrEqual(byRule.uncertainty.low);
      expect(real).toBeLessThanOrEqual(byRule.uncertainty.high);
    }
  });
});

describe("uncertainty", () => {
  const ends = (over: Parameters<typeof request>[0]) => {
    const contents = cylinderContents(request(over));
    if (!contents.ok || !contents.uncertainty) throw new Error("no uncertainty");
    return { value: contents.value, ...contents.uncertainty };
  };

  it("of the gauge alone is its class of full scale, in litres", () => {
    // 2.5 % of 3,000 psi = 75 psi, and 660 L/1,900 psi there: about 26 L.
    const { value, low, high } = ends({ accuracy: { temperatureK: 0, waterCapacityPercent: 0 } });
    const up = litres({ psi: 1_975 }) - value;
    const down = value - litres({ psi: 1_825 });
    expect(high - value).toBeCloseTo(Math.hypot(up, 0.001 * value), 6);
    expect(value - low).toBeCloseTo(Math.hypot(down, 0.001 * value), 6);
  });

  it("of the temperature is what a warmer or a colder gas would be, of the water capacity its share", () => {
    const warm = ends({ accuracy: { gaugeClass: 0, waterCapacityPercent: 0, temperatureK: 5 } });
    expect(warm.value - warm.low).toBeCloseTo(
      Math.hypot(warm.value - litres({ temperature: celsius(26.1) }), 0.001 * warm.value),
      6,
    );
    const capacity = ends({ accuracy: { gaugeClass: 0, waterCapacityPercent: 2, temperatureK: 0 } });
    expect(capacity.high - capacity.value).toBeCloseTo(Math.hypot(0.02, 0.001) * capacity.value, 6);
  });

  it("adds up as root of the sum of squares and never goes below zero", () => {
    const all = ends({});
    expect(all.value - all.low).toBeGreaterThan(26);
    expect(all.value - all.low).toBeLessThan(33);
    expect(ends({ psi: 0 }).low).toBe(0);
    expect(ends({ psi: 0 }).high).toBeGreaterThan(20);
  });
});

describe("what is refused", () => {
  it.each([
    ["pressure-below-zero", { psi: -1 }],
    ["pressure-out-of-range", { psi: 4_352 }],
    ["pressure-out-of-range", { psi: Number.NaN }],
    ["pressure-out-of-range", { psi: Number.POSITIVE_INFINITY }],
    ["pressure-out-of-range", { psi: 2_851, method: BY_PROPORTION }],
    ["temperature-out-of-range", { temperature: celsius(-20.1) }],
    ["temperature-out-of-range", { temperature: celsius(60.1) }],
    ["temperature-out-of-range", { temperature: celsius(60.1), method: BY_FACTOR }],
    ["ambient-out-of-range", { ambient: pascalAbsolute(101.325) }],
    ["ambient-out-of-range", { ambient: pascalAbsolute(120_000) }],
    ["water-capacity-unusable", { waterCapacity: litre(0) }],
    ["water-capacity-unusable", { waterCapacity: litre(-4.8) }],
    ["water-capacity-unusable", { waterCapacity: litre(4_800) }],
    ["accuracy-unusable", { accuracy: { gaugeClass: -1 } }],
    ["accuracy-unusable", { accuracy: { temperatureK: Number.NaN } }],
    ["accuracy-unusable", { accuracy: { waterCapacityPercent: 50 } }],
    ["accuracy-unusable", { accuracy: { gaugeFullScale: { value: 0, unit: "bar" } } }],
    [
      "rating-unusable",
      {
        method: { ...BY_PROPORTION, kind: "proportion", rated: litre(0), ratedPressure: { value: 1_900, unit: "psi" } },
      },
    ],
    [
      "rating-unusable",
      { method: { kind: "proportion", rated: litre(660), ratedPressure: { value: 0, unit: "psi" } } },
    ],
    ["factor-unusable", { method: { kind: "factor", litresPerPsi: 0 } }],
    ["not-for-nitrous-oxide", { gas: "nitrous-oxide", psi: 745, method: BY_PROPORTION }],
    ["not-for-nitrous-oxide", { gas: "nitrous-oxide", psi: 100, method: BY_FACTOR }],
  ] as const satisfies readonly (readonly [string, Parameters<typeof request>[0]])[])("%s", (refusal, over) => {
    expect(refusalOf(cylinderContents(request(over)))).toBe(refusal);
  });

  it("takes the ends of the range: 0 and 300 bar, -20 and 60 C", () => {
    expect(cylinderContents(request({ pressure: { value: 300, unit: "bar" } })).ok).toBe(true);
    expect(cylinderContents(request({ pressure: { value: pressureIn(300, "bar", "psi"), unit: "psi" } })).ok).toBe(
      true,
    );
    for (const t of [-20, 60]) expect(cylinderContents(request({ temperature: celsius(t) })).ok).toBe(true);
  });
});

describe("over the whole domain", () => {
  const gas = fc.constantFrom<CylinderGas>(...CYLINDER_GASES);
  const bar = fc.double({ min: 0, max: 300, noNaN: true });
  const t = fc.double({ min: -20, max: 60, noNaN: true });
  const water = fc.double({ min: 0.1, max: 50, noNaN: true });
  const method = fc.constantFrom(BY_EQUATION, BY_PROPORTION, BY_FACTOR);
  const reference = fc.constantFrom(...REFERENCES);
  const any = fc.record({ gas, bar, t, water, method, reference }).map((one) =>
    request({
      gas: one.gas,
      pressure: { value: one.bar, unit: "bar" },
      temperature: celsius(one.t),
      waterCapacity: litre(one.water),
      method: one.method,
      reference: one.reference,
    }),
  );

  it("every answer is finite and inside its own ends, every refusal has a reason and a sentence", () => {
    fc.assert(
      fc.property(any, (one) => {
        const contents = cylinderContents(one);
        if (!contents.ok) {
          expect(refusalOf(contents)).toMatch(/^(liquid-present|not-for-nitrous-oxide|pressure-out-of-range)$/);
          if (contents.refusal === "liquid-present") expect(contents.atLeastL).toBeGreaterThan(0);
          return;
        }
        expect(Number.isFinite(contents.value)).toBe(true);
        expect(contents.uncertainty?.low).toBeLessThanOrEqual(contents.value);
        expect(contents.uncertainty?.high).toBeGreaterThanOrEqual(contents.value);
        expect(contents.uncertainty?.low).toBeGreaterThanOrEqual(0);
        expect(Number.isFinite(contents.uncertainty?.high)).toBe(true);
      }),
      { numRuns: 2_000 },
    );
  });

  it("contents rise with the pressure, and nothing is left out at the liquid: its floor is above all gas", () => {
    fc.assert(
      fc.property(any, bar, (one, other) => {
        const [low, high] = [one.pressure.value, other].sort((x, y) => x - y) as [number, number];
        const below = cylinderContents({ ...one, pressure: { value: low, unit: "bar" } });
        const above = cylinderContents({ ...one, pressure: { value: high, unit: "bar" } });
        if (below.ok && above.ok) expect(above.value).toBeGreaterThanOrEqual(below.value * (1 - 1e-9));
        if (below.ok && !above.ok && above.atLeastL !== undefined) expect(above.atLeastL).toBeGreaterThan(below.value);
      }),
      { numRuns: 2_000 },
    );
  });

  it("another unit of pressure changes nothing", () => {
    fc.assert(
      fc.property(any, fc.constantFrom<PressureUnit>(...PRESSURE_UNITS), (one, unit) => {
        const same = cylinderContents({
          ...one,
          pressure: { value: pressureIn(one.pressure.value, "bar", unit), unit },
        });
        const contents = cylinderContents(one);
        expect(same.ok).toBe(contents.ok);
        if (same.ok && contents.ok) expect(same.value).toBeCloseTo(contents.value, 4);
      }),
      { numRuns: 1_000 },
    );
  });

  it("twice the water is twice the gas, and the two references differ by the molar volumes", () => {
    fc.assert(
      fc.property(any, (one) => {
        const by = { ...one, method: BY_EQUATION };
        const contents = cylinderContents(by);
        const twice = cylinderContents({ ...by, waterCapacity: litre(2 * (one.waterCapacity ?? 1)) });
        const cold = cylinderContents({ ...by, reference: "15C" });
        const warm = cylinderContents({ ...by, reference: "70F-1atm" });
        if (!contents.ok || !twice.ok || !cold.ok || !warm.ok) return;
        expect(twice.value).toBeCloseTo(2 * contents.value, 6);
        if (warm.value > 1) expect(cold.value / warm.value).toBeCloseTo(0.979, 3);
      }),
      { numRuns: 1_000 },
    );
  });
});
