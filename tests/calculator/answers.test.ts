import { describe, expect, it } from "vitest";
import { ask, numberFrom, refusalFrom } from "./ask";

const E_CYLINDER = { gas: "oxygen", waterCapacityL: 4.8, temperatureC: 21.1, reference: "70F-1atm" };
const psi = (value: number) => ({ value, unit: "psi" });

describe("cylinder contents", () => {
  /** Handbooks: 660 L at 1,900 psi; the others by the equation of state, 1 %. */
  it.each([
    [1900, 660.2],
    [2200, 766.2],
    [500, 167.1],
    [200, 66.0],
  ])("a US E cylinder at %s psi holds %s L by the equation of state", (gauge, litres) => {
    const value = numberFrom("cylinder-contents", { ...E_CYLINDER, pressure: psi(gauge), method: "equation-of-state" });
    expect(Math.abs(value / litres - 1)).toBeLessThan(0.01);
  });

  it("is the same in any unit of pressure", () => {
    const litres = (value: number, unit: string) =>
      numberFrom("cylinder-contents", { ...E_CYLINDER, pressure: { value, unit } });
    expect(litres(13_100.038862, "kPa")).toBeCloseTo(litres(1900, "psi"), 4);
    expect(litres(131.00038862, "bar")).toBeCloseTo(litres(1900, "psi"), 4);
  });

  it("counts fewer litres at 15 C than at 70 F", () => {
    const litres = (reference: string) =>
      numberFrom("cylinder-contents", { ...E_CYLINDER, reference, pressure: psi(1900) });
    expect(litres("15C") / litres("70F-1atm")).toBeCloseTo(288.15 / 294.2611, 3);
  });

  it("goes by the handbook proportion and by the tank factor without a water capacity", () => {
    const proportion = {
      gas: "oxygen",
      pressure: psi(1000),
      method: "proportion",
      ratedL: 660,
      ratedPressure: psi(1900),
    };
    expect(numberFrom("cylinder-contents", proportion)).toBeCloseTo(347.368, 3);
    const factor = { gas: "oxygen", pressure: psi(1000), method: "factor", litresPerPsi: 0.28 };
    expect(numberFrom("cylinder-contents", factor)).toBeCloseTo(280, 9);
  });

  it("names the input that its method needs", () => {
    const bare = { gas: "oxygen", pressure: psi(1000) };
    expect(refusalFrom("cylinder-contents", bare).message).toMatch(/waterCapacityL.*temperatureC/);
    expect(refusalFrom("cylinder-contents", { ...bare, method: "proportion" }).message).toMatch(
      /ratedL.*ratedPressure/,
    );
    expect(refusalFrom("cylinder-contents", { ...bare, method: "factor" }).message).toContain("litresPerPsi");
  });

  it("tells a floor, and no contents, while liquid nitrous oxide remains", () => {
    const liquid = { ...E_CYLINDER, gas: "nitrous-oxide", temperatureC: 20, pressure: psi(718) };
    const { refusal, atLeastL } = refusalFrom("cylinder-contents", liquid);
    expect(refusal).toBe("liquid-present");
    expect(Math.abs((atLeastL as number) - 409)).toBeLessThan(1);
    expect(numberFrom("cylinder-contents", { ...liquid, pressure: psi(500) })).toBeLessThan(409);
  });

  it("carries its accuracy into the uncertainty", () => {
    const spread = (accuracy?: object) => {
      const { uncertainty } = ask("cylinder-contents", { ...E_CYLINDER, pressure: psi(1000), accuracy });
      const { low, high } = uncertainty as { low: number; high: number };
      return high - low;
    };
    expect(spread({ gaugeClass: 1 })).toBeLessThan(spread());
  });
});

describe("nitrous oxide and closed cylinders", () => {
  it("weighs 545.5 L in a kilogram", () => {
    expect(Math.abs(numberFrom("nitrous-oxide-by-weight", { grossKg: 7.4, tareKg: 6.4 }) - 545.5)).toBeLessThan(0.5);
    expect(refusalFrom("nitrous-oxide-by-weight", { grossKg: 6, tareKg: 6.4 }).refusal).toBe("gross-below-tare");
  });

  it("has its saturation pressure in the unit asked for", () => {
    const at = (unit?: string) => numberFrom("saturation-pressure", { gas: "nitrous-oxide", temperatureC: 20, unit });
    expect(Math.abs(at("psi") - 718)).toBeLessThan(1);
    expect(at()).toBe(at("psi"));
    expect(at("kPa") / at("bar")).toBeCloseTo(100, 9);
    const { uncertainty } = ask("saturation-pressure", { temperatureC: 20, unit: "bar" });
    expect(uncertainty).toMatchObject({ unit: "bar" });
    expect((uncertainty as { high: number }).high).toBeLessThan(50);
    expect(refusalFrom("saturation-pressure", { gas: "oxygen", temperatureC: 20 }).message).toContain("nitrous-oxide");
    expect(refusalFrom("saturation-pressure", { temperatureC: 40 }).refusal).toBe("above-critical");
  });

  it("holds 414 L in all when the last liquid goes", () => {
    const answer = ask("last-liquid-contents", { gas: "nitrous-oxide", waterCapacityL: 4.8, temperatureC: 20 });
    expect(Math.abs((answer.value as number) - 413.7)).toBeLessThan(0.5);
    expect(Math.abs((answer.usableL as number) - 408.8)).toBeLessThan(0.5);
  });

  it("answers a closed cylinder in the unit of its gauge", () => {
    const cold = { gas: "oxygen", fromC: 21.1, toC: 10 };
    const inPsi = numberFrom("closed-cylinder-pressure", { ...cold, pressure: psi(1900) });
    const inBar = numberFrom("closed-cylinder-pressure", { ...cold, pressure: { value: 131.00038862, unit: "bar" } });
    expect(inPsi).toBeLessThan(1900);
    expect(inPsi / inBar).toBeCloseTo(14.503774, 4);
    const warmed = { gas: "nitrous-oxide", pressure: psi(718), fromC: 20, toC: 30 };
    expect(refusalFrom("closed-cylinder-pressure", warmed)).toMatchObject({
      refusal: "liquid-present",
      atLeast: { unit: "psi" },
    });
  });

  it("tells a leak from a cold night", () => {
    const at = (value: number, temperatureC: number, hour: string) => ({
      pressure: psi(value),
      temperatureC,
      at: `2026-11-25T${hour}:00:00Z`,
    });
    const verdict = (second: object) =>
      ask("two-readings", { ...E_CYLINDER, temperatureC: undefined, first: at(1900, 21, "01"), second })
        .value as object;
    expect(verdict(at(1650, 21, "08"))).toMatchObject({ verdict: "leak", elapsedMin: 420 });
    expect(verdict(at(1780, 5, "08"))).toMatchObject({ verdict: "cold-night" });
  });
});

describe("endurance", () => {
  it("lasts 280 min by hand and 26.9 on the ventilator", () => {
    const { value, unit } = ask("endurance", { litres: 280, freshGasLPerMin: 1, driveGasLPerMin: 9.4 });
    expect(unit).toBe("min");
    expect(value).toEqual({
      byHand: { toAlarm: null, toResidual: 280 },
      onVentilator: { toAlarm: null, toResidual: expect.closeTo(26.923, 2) },
    });
  });

  it("counts to the alarm and to the residual, and never below zero", () => {
    const { value } = ask("endurance", { litres: 60, freshGasLPerMin: 2, alarmLitres: 100, residualLitres: 20 });
    expect(value).toEqual({
      byHand: { toAlarm: 0, toResidual: 20 },
      onVentilator: { toAlarm: 0, toResidual: 20 },
    });
    expect(refusalFrom("endurance", { litres: 100, freshGasLPerMin: 0 }).refusal).toBe("no-consumption");
  });
});

describe("vaporizer, absorbent and cell", () => {
  it.each([
    ["isoflurane", 2, 1, "rule-of-thumb", 6],
    ["isoflurane", 2, 6, "rule-of-thumb", 36],
    ["sevoflurane", 2, 2, "rule-of-thumb", 13.2],
    ["isoflurane", 1.2, 2, "total-flow", 7.38],
    ["isoflurane", 1.2, 2, "carrier-flow", 7.47],
    ["halothane", 1, 2, "total-flow", 5.24],
    ["sevoflurane", 0, 2, "total-flow", 0],
  ])("%s at %s %% and %s L/min, %s, uses %s mL/h", (agent, concentrationPct, freshGasLPerMin, method, expected) => {
    const value = numberFrom("vaporizer-use", { agent, concentrationPct, freshGasLPerMin, method });
    expect(Math.abs(value - expected)).toBeLessThanOrEqual(0.01);
  });

  const charge = { massG: 1000, capacityLPer100g: 12, co2MLPerMin: 200, minuteVentilationLPerMin: 6 };

  it("lasts by load over capacity, and is not limited once fresh gas reaches the minute ventilation", () => {
    expect(numberFrom("absorbent-life", { ...charge, freshGasLPerMin: 3 })).toBeCloseTo(20, 9);
    expect(ask("absorbent-life", { ...charge, freshGasLPerMin: 6 })).toMatchObject({
      value: "not-limited",
      unit: null,
    });
  });

  it.each([
    [21, 992.06],
    [100, 208.33],
  ])("a cell of 500,000 %%h at %s %% lasts %s days", (percent, days) => {
    const value = numberFrom("oxygen-cell-life", { ratedPercentHours: 500_000, use: [{ percent, hoursPerDay: 24 }] });
    expect(Math.abs(value - days)).toBeLessThan(0.01);
  });
});

describe("dates", () => {
  it.each([
    ["2026-03-15", 3, 10, "2026-06-15", "2026-06-05", "2026-06-25"],
    ["2026-02-28", 12, 30, "2027-02-28", "2027-01-29", "2027-03-30"],
    ["2026-08-31", 6, 0, "2027-02-28", "2027-02-28", "2027-02-28"],
    ["2024-02-29", 36, 0, "2027-02-28", "2027-02-28", "2027-02-28"],
  ])("last done %s, every %s months, %s days: due %s", (lastDone, intervalMonths, toleranceDays, due, from, to) => {
    const answer = ask("service-due", { lastDone, intervalMonths, toleranceDays, basis: "last-done" });
    expect(answer).toMatchObject({ ok: true, value: { due, from, to }, unit: null });
  });

  it("keeps to a fixed schedule by its anchor", () => {
    const plan = { lastDone: "2026-02-28", intervalMonths: 1, toleranceDays: 0, basis: "anchor", anchor: "2026-01-31" };
    expect(ask("service-due", plan).value).toMatchObject({ due: "2026-03-31" });
    expect(refusalFrom("service-due", { ...plan, anchor: undefined }).message).toContain("anchor");
  });

  it("leaves out federal holidays and the ones that are given", () => {
    const plain = { start: "2026-11-20", days: 4 };
    expect(ask("work-days", { ...plain, federalHolidays: false }).value).toBe("2026-11-26");
    expect(ask("work-days", plain).value).toBe("2026-11-27");
    expect(ask("work-days", { ...plain, holidays: ["2026-11-23"] }).value).toBe("2026-11-30");
    const late = { awareAt: "2026-11-21T05:50:00Z", zone: "America/Chicago" };
    expect(ask("report-due", late).value).toBe(ask("work-days", { start: "2026-11-20", days: 10 }).value);
  });
});

describe("scores, electrical safety and codes", () => {
  it.each([
    [10, 5, 5, 20, true],
    [9, 4, 2, 15, true],
    [6, 3, 2, 11, false],
  ])("function %s, risk %s, maintenance %s score %s", (func, risk, maintenance, score, include) => {
    expect(ask("risk-score", { function: func, risk, maintenance }).value).toEqual({ score, include });
  });

  it("tells no partial sum", () => {
    expect(refusalFrom("risk-score", { function: 10, risk: 5 }).refusal).toBe("incomplete");
  });

  it.each([
    ["NFPA 99-2005", "chassis-leakage", 300, "uA", [], "pass"],
    ["NFPA 99-2005", "chassis-leakage", 301, "uA", [], "conditional"],
    ["nfpa-99-2012", "ground-resistance", 0.5, "ohm", {}, "fail"],
    ["nfpa-99-2012", "touch-current", 0.5, "mA", { ground: "open" }, "pass"],
    ["IEC 62353:2014", "protective-earth-resistance", 301, "mOhm", "with cord", "fail"],
    ["IEC 62353-2014", "applied part leakage", 51, "µA", ["type CF"], "fail"],
  ])("%s, %s of %s %s with %j: %s", (standard, test, value, unit, conditions, verdict) => {
    expect(ask("electrical-safety", { standard, test, value, unit, conditions })).toMatchObject({ value: verdict });
  });

  it("asks for the condition that the limit depends on", () => {
    const bare = { standard: "nfpa-99-2012", test: "touch-current", value: 90, unit: "uA" };
    expect(refusalFrom("electrical-safety", bare).refusal).toBe("condition-missing");
    expect(refusalFrom("electrical-safety", { ...bare, conditions: ["sunny"] }).refusal).toBe("unknown-condition");
  });

  it("reads a GS1 element string, bracketed or scanned", () => {
    const fields = { "01": "09506000134352", "17": "2027-02-28", "10": "AB1" };
    const seenOn = "2026-11-25";
    expect(ask("gs1", { elementString: "(01)09506000134352(17)270200(10)AB1", seenOn }).value).toEqual(fields);
    expect(ask("gs1", { elementString: "]C101095060001343521727020010AB1", seenOn }).value).toEqual(fields);
    const lost = ask("gs1", { elementString: "0109506000134352" + "10AB117270228", seenOn });
    expect(lost.suspicious).toHaveLength(1);
  });

  it.each([
    ["890400021003", "7"],
    ["501234567890", "0"],
    ["0952123454321", "3"],
  ])("completes %s with %s", (digits, digit) => expect(ask("gs1-check-digit", { digits }).value).toBe(digit));

  it("reads a HIBC string", () => {
    expect(ask("hibc", { string: "+A123BJC5D6E71G" }).value).toMatchObject({ labeler: "A123", product: "BJC5D6E7" });
    expect(refusalFrom("hibc", { string: "+A123BJC5D6E71H" }).refusal).toBe("check-character");
  });

  it.each([
    [50, "psi", "kPa", 344.7379],
    [30, "cmH2O", "kPa", 2.941995],
    [12, "inHg", "kPa", 40.6367],
    [-40, "C", "F", -40],
    [4.8, "L", "mL", 4800],
  ])("converts %s %s to %s", (value, from, to, expected) => {
    const answer = ask("convert", { value, from, to });
    expect(answer.unit).toBe(to);
    expect(answer.value).toBeCloseTo(expected, 4);
  });
});
