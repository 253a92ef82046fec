import { describe, expect, it } from "vitest";
import { driveFlow, reserveMinutes } from "@/lib/domain/endurance";
import type { ModelEvidence } from "@/lib/domain/evidence";
import { withValues } from "@/lib/domain/rules/examples";
import { quantity } from "@/lib/units/quantity";
import { cylinderOf, readyRoom } from "@/tests/support/ready-room";

const ready = readyRoom("US");
const oxygen = cylinderOf(ready, "oxygen");
const minutes = (psi: number, place = ready) =>
  reserveMinutes(quantity(psi, "psi"), oxygen, place, place.workstation?.model ?? null);

describe("minutes of a fitted cylinder", () => {
  it("are counted from the low end of the contents, at 8 L/min to 200 psi, and rounded down", () => {
    // 660 L less 29 (75 psi of the gauge, 2 K, 1.5 % of the water capacity) and less the 66 L at 200 psi: 565 / 8 by hand, / 18 on the ventilator.
    expect(minutes(1900)).toEqual({ byHand: 70, onVentilator: 31 });
  });

  it("follow the site's flow and residual", () => {
    const site = withValues(ready, "endurance", { byHandFlow: quantity(5, "L/min"), residual: quantity(0, "psi") });
    expect(minutes(1900, site)?.byHand).toBe(126);
  });

  it("are 0 at and below the residual, never less", () => {
    expect(minutes(200)).toEqual({ byHand: 0, onVentilator: 0 });
    expect(minutes(0)).toEqual({ byHand: 0, onVentilator: 0 });
  });

  it("are not told for nitrous oxide, nor for a reading that cannot be", () => {
    expect(reserveMinutes(quantity(745, "psi"), cylinderOf(ready, "nitrous-oxide"), ready, null)).toBeNull();
    expect(minutes(20_000)).toBeNull();
  });
});

describe("what the drive takes from the oxygen reserve", () => {
  const flow = (model: Partial<ModelEvidence>) =>
    driveFlow({ drive: "ascending-bellows", driveGas: "oxygen", ...model }, ready);

  it("is the site's figure for bellows on oxygen, and nothing for air, a piston or a turbine", () => {
    expect(flow({})).toBe(10);
    expect(flow({ drive: "descending-bellows" })).toBe(10);
    expect(flow({ driveGas: "air" })).toBe(0);
    expect(flow({ drive: "piston" })).toBe(0);
    expect(flow({ drive: "turbine" })).toBe(0);
    expect(
      driveFlow(
        { drive: "ascending-bellows", driveGas: "oxygen" },
        withValues(ready, "endurance", { driveGasFlow: quantity(14, "L/min") }),
      ),
    ).toBe(14);
  });

  it("leaves as many minutes as by hand where there is none", () => {
    const without = reserveMinutes(quantity(1900, "psi"), oxygen, ready, { drive: "piston", driveGas: "none" });
    expect(without).toEqual({ byHand: 70, onVentilator: 70 });
  });
});
