import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type ContentsMethod, cylinderContents } from "@/lib/calculations/cylinder-contents";
import { driveGasFromReserve } from "@/lib/calculations/drive-gas";
import { endurance } from "@/lib/calculations/endurance";
import { demandOf, leastPsiFor, TANK_FACTORS } from "@/lib/calculations/tank-factor";
import { celsius, litre, litrePerMinute, minute } from "@/lib/units/measure";
import { DRIVE_GAS_STUDY } from "@/tests/handbook/drive-gas";
import { answerOf, refusalOf } from "@/tests/support/calculated";

const ask = (contents: number, fresh: number, drive = 0, floors: { alarm?: number; residual?: number } = {}) =>
  endurance({
    contents: litre(contents),
    freshGas: litrePerMinute(fresh),
    driveGas: litrePerMinute(drive),
    ...(floors.alarm === undefined ? {} : { alarm: litre(floors.alarm) }),
    ...(floors.residual === undefined ? {} : { residual: litre(floors.residual) }),
  });

describe("by hand and on the ventilator", () => {
  it("is 340 min by hand for 340 L at 1 L/min, and 26.9 min for 280 L at 1.0 fresh and 9.4 drive gas", () => {
    expect(answerOf(ask(340, 1)).byHand).toEqual({ toAlarm: null, toResidual: 340 });
    expect(answerOf(ask(280, 1, 9.4)).onVentilator?.toResidual).toBeCloseTo(26.92, 2);
  });

  it("is 308 min for a US E at 2,200 psi by the factor 0.28 at 2 L/min, no residual", () => {
    expect(answerOf(ask(0.28 * 2_200, 2)).byHand?.toResidual).toBeCloseTo(308, 9);
  });

  it("is 660 min for a US H at 1,100 psi and 5 L/min by a factor of 3, 690.8 by 3.14", () => {
    // A public teaching page rounds the factor of an H cylinder to 3; the sheet has 3.14.
    expect(answerOf(ask(3 * 1_100, 5)).byHand?.toResidual).toBe(660);
    expect(answerOf(ask(TANK_FACTORS.H * 1_100, 5)).byHand?.toResidual).toBeCloseTo(690.8, 9);
  });

  it("shows the spread of the methods: a US E at 1,000 psi, residual 200, 5 L/min lasts 44.8, 55.6 or 54.9 min", () => {
    const by = (method: ContentsMethod) => {
      const contentsAt = (psi: number) =>
        answerOf(
          cylinderContents({
            gas: "oxygen",
            pressure: { value: psi, unit: "psi" },
            temperature: celsius(21.1),
            waterCapacity: litre(4.8),
            reference: "70F-1atm",
            method,
          }),
        );
      return answerOf(ask(contentsAt(1_000), 5, 0, { residual: contentsAt(200) })).byHand?.toResidual ?? 0;
    };
    expect(by({ kind: "factor", litresPerPsi: 0.28 })).toBeCloseTo(44.8, 1);
    expect(by({ kind: "proportion", rated: litre(660), ratedPressure: { value: 1_900, unit: "psi" } })).toBeCloseTo(
      55.6,
      1,
    );
    // The printed figure takes the contents in whole litres.
    expect(Math.abs(by({ kind: "equation-of-state" }) - 54.9)).toBeLessThan(0.2);
  });

  it("is 70 min for 280 L at 4 L/min: E cylinder, 1,200 psi, residual 200, factor 0.28", () => {
    const { byHand } = answerOf(ask(0.28 * 1_200, 4, 0, { residual: 0.28 * 200 }));
    expect(byHand?.toResidual).toBeCloseTo(70, 9);
  });

  it("is about 11 h for 651 L at 1 L/min and about 118 h for 7,107 L", () => {
    // A veterinary teaching page: E and H cylinders.
    expect((answerOf(ask(651, 1)).byHand?.toResidual ?? 0) / 60).toBeCloseTo(10.85, 2);
    expect((answerOf(ask(7_107, 1)).byHand?.toResidual ?? 0) / 60).toBeCloseTo(118.45, 2);
  });

  it.each(DRIVE_GAS_STUDY)(
    "the published $minutes min on $litresPerHour L/h come back from $usedL L to the alarm",
    (row) => {
      // Only drive gas is known. The litres used are back-computed from the study itself; what can fail is the arithmetic in between.
      const { onVentilator } = answerOf(ask(660, 0, row.litresPerHour / 60, { alarm: 660 - row.usedL }));
      expect(Math.abs((onVentilator?.toAlarm ?? 0) - row.minutes)).toBeLessThan(0.2);
    },
  );

  it("a full cylinder outlasts every published time to its alarm, and the alarm of the longest is by then long past half", () => {
    for (const { litresPerHour, minutes } of DRIVE_GAS_STUDY) {
      const toEmpty = answerOf(ask(660, 0, litresPerHour / 60)).onVentilator?.toResidual ?? 0;
      expect(toEmpty).toBeGreaterThan(minutes);
      expect(toEmpty).toBeLessThan(1.5 * minutes);
    }
  });

  it("tells the alarm and the residual apart, and is 0 at or below each", () => {
    const { byHand, onVentilator } = answerOf(ask(100, 2, 8, { alarm: 120, residual: 50 }));
    expect(byHand).toEqual({ toAlarm: 0, toResidual: 25 });
    expect(onVentilator).toEqual({ toAlarm: 0, toResidual: 5 });
    expect(answerOf(ask(40, 2, 0, { residual: 50 })).byHand?.toResidual).toBe(0);
  });

  it("by hand has no time where no fresh gas flows, and without any flow there is no answer", () => {
    expect(answerOf(ask(100, 0, 5))).toEqual({ byHand: null, onVentilator: { toAlarm: null, toResidual: 20 } });
    expect(refusalOf(ask(100, 0, 0))).toBe("no-consumption");
  });

  it.each([
    ["flow-unusable", ask(100, -1)],
    ["flow-unusable", ask(100, 1, -1)],
    ["contents-unusable", ask(-1, 1)],
    ["contents-unusable", ask(100, 1, 0, { alarm: -1 })],
    ["contents-unusable", ask(100, 1, 0, { residual: -1 })],
  ])("refuses: %s", (refusal, answer) => {
    expect(refusalOf(answer)).toBe(refusal);
  });

  it("the ventilator never lasts longer than the hand, and more gas never lasts shorter", () => {
    const amount = fc.double({ min: 0, max: 7_000, noNaN: true });
    const flow = fc.double({ min: 0.1, max: 60, noNaN: true });
    fc.assert(
      fc.property(amount, amount, flow, flow, amount, (one, other, fresh, drive, residual) => {
        const less = answerOf(ask(Math.min(one, other), fresh, drive, { residual, alarm: residual }));
        const more = answerOf(ask(Math.max(one, other), fresh, drive, { residual, alarm: residual }));
        expect(less.onVentilator?.toResidual).toBeLessThanOrEqual(less.byHand?.toResidual ?? -1);
        expect(less.byHand?.toResidual).toBeLessThanOrEqual(more.byHand?.toResidual ?? -1);
        expect(less.byHand?.toAlarm).toBe(less.byHand?.toResidual);
      }),
    );
  });
});

describe("drive gas from the oxygen reserve", () => {
  const drive = (over: Partial<Parameters<typeof driveGasFromReserve>[0]>) =>
    driveGasFromReserve({ drive: "gas-driven", source: "oxygen", minuteVentilation: litrePerMinute(6), ...over });

  it("is about the minute ventilation, or what was measured", () => {
    expect(answerOf(drive({}))).toBe(6);
    expect(answerOf(drive({ measured: litrePerMinute(9.4) }))).toBe(9.4);
  });

  it("is none where the drive is electric, or the gas is piped air: by hand and on the ventilator last alike", () => {
    for (const over of [
      { drive: "piston" },
      { drive: "turbine" },
      { source: "air" },
      { source: "air", measured: litrePerMinute(9) },
    ] as const) {
      const driveGas = answerOf(drive(over));
      expect(driveGas).toBe(0);
      const { byHand, onVentilator } = answerOf(ask(340, 1, driveGas));
      expect(onVentilator).toEqual(byHand);
    }
  });

  it("says how rough the rule of thumb is: the published flows lie within it at 6 to 10 L/min", () => {
    const answer = drive({ minuteVentilation: litrePerMinute(8) });
    if (!answer.ok || !answer.uncertainty) throw new Error("no uncertainty");
    for (const { litresPerHour } of DRIVE_GAS_STUDY) {
      expect(litresPerHour / 60).toBeGreaterThan(answer.uncertainty.low);
      expect(litresPerHour / 60).toBeLessThan(answer.uncertainty.high);
    }
  });

  it("refuses a flow below zero", () => {
    expect(refusalOf(drive({ minuteVentilation: litrePerMinute(-1) }))).toBe("flow-unusable");
    expect(refusalOf(drive({ measured: litrePerMinute(-1) }))).toBe("flow-unusable");
  });
});

describe("the least pressure for a demand, by the tank factor", () => {
  const least = (asked: number, factor: number) => answerOf(leastPsiFor(litre(asked), factor, 200));
  const upTo50 = (psi: number) => Math.ceil(psi / 50) * 50;

  // EMS oxygen guidance sheet 2010; the sheet rounds D, E and H up to the next 50 psi.
  it("is what the guidance sheet prints", () => {
    const quarterHour = demandOf(litrePerMinute(10), minute(15));
    expect(quarterHour).toBe(150);
    expect(least(quarterHour, TANK_FACTORS.D)).toBeCloseTo(1137.5, 9);
    expect(upTo50(least(quarterHour, TANK_FACTORS.D))).toBe(1_150);
    expect(least(quarterHour, TANK_FACTORS.E)).toBeCloseTo(735.7, 1);
    expect(upTo50(least(quarterHour, TANK_FACTORS.E))).toBe(750);
    const halfHour = demandOf(litrePerMinute(10), minute(30));
    expect(Math.abs(least(halfHour, TANK_FACTORS.M) - 392)).toBeLessThan(1);
    expect(upTo50(least(halfHour, TANK_FACTORS.H))).toBe(300);
  });

  it("refuses what cannot be asked", () => {
    expect(refusalOf(leastPsiFor(litre(-1), 0.28, 200))).toBe("demand-unusable");
    expect(refusalOf(leastPsiFor(litre(1), 0.28, Number.NaN))).toBe("demand-unusable");
    expect(refusalOf(leastPsiFor(litre(1), 0, 200))).toBe("factor-unusable");
  });
});
