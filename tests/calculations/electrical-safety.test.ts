import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { scaledByTen } from "@/lib/calculations/decimal-scale";
import { conditionsFromWords } from "@/lib/calculations/electrical-conditions";
import {
  type Conditions,
  ELECTRICAL_LIMITS,
  ELECTRICAL_STANDARDS,
  ELECTRICAL_TESTS,
  type ElectricalLimit,
} from "@/lib/calculations/electrical-limits";
import {
  electricalSafety,
  electricalStandard,
  READING_UNITS,
  type ReadingUnit,
  testsOf,
} from "@/lib/calculations/electrical-safety";
import { allFinite, answerOf, computed, refusalOf } from "@/tests/support/calculated";

const OTHER_UNIT: Readonly<Record<ElectricalLimit["unit"], readonly [unit: ReadingUnit, power: number]>> = {
  uA: ["mA", -3],
  ohm: ["mohm", 3],
  mohm: ["ohm", -3],
  Mohm: ["kohm", 3],
};
const asked = ({ standard, test, when }: ElectricalLimit, value: number, unit: ReadingUnit) =>
  electricalSafety({ standard, test, value, unit, conditions: when });

describe("an electrical safety reading", () => {
  it("is judged exactly at the limit, in the unit of the limit and in another", () => {
    for (const row of ELECTRICAL_LIMITS) {
      const [unit, power] = OTHER_UNIT[row.unit];
      const atLimit = { "at-most": "pass", below: "fail", "at-least": "pass" }[row.bound];
      expect(answerOf(asked(row, row.limit, row.unit))).toBe(atLimit);
      expect(answerOf(asked(row, scaledByTen(row.limit, power), unit))).toBe(atLimit);
      const beyond = row.bound === "at-least" ? row.limit * 0.999 : row.limit * 1.001;
      expect(answerOf(asked(row, beyond, row.unit))).toBe(row.conditional ? "conditional" : "fail");
    }
  });

  it("passes in amperes what passes in microamperes: 0.0003 A is 300 uA", () => {
    const reading = { standard: "nfpa-99-2005", test: "chassis-leakage", conditions: {} } as const;
    expect(computed(electricalSafety({ ...reading, value: 0.0003, unit: "A" }))).toMatchObject({
      value: "pass",
      measured: 300,
    });
    expect(computed(electricalSafety({ ...reading, value: 0.3, unit: "mA" }))).toMatchObject({
      value: "pass",
      measured: 300,
    });
    expect(computed(electricalSafety({ ...reading, value: 0.301, unit: "mA" })).value).toBe("conditional");
  });

  it("names the limit and its conditions", () => {
    const answer = electricalSafety({
      standard: "nfpa-99-2005",
      test: "chassis-leakage",
      value: 400,
      unit: "uA",
      conditions: {},
    });
    expect(computed(answer).because).toMatch(/^at most 300 uA; up to 500 uA for existing or special equipment/);
    expect(computed(answer).method).toBe("chassis-leakage, NFPA 99, edition 2005");
  });

  it("says that 0.3 uA beside a limit of 300 uA looks like 0.3 mA, and still judges it as written", () => {
    const reading = { standard: "nfpa-99-2005", test: "chassis-leakage", unit: "uA", conditions: {} } as const;
    const slip = computed(electricalSafety({ ...reading, value: 0.3 }));
    expect(slip.value).toBe("pass");
    expect(slip.warnings).toEqual([expect.stringContaining("Did the meter show mA?")]);
    expect(computed(electricalSafety({ ...reading, value: 120_000 })).warnings).toHaveLength(1);
    expect(computed(electricalSafety({ ...reading, value: 20 })).warnings).toEqual([]);
    expect(computed(electricalSafety({ ...reading, value: 0 })).warnings).toEqual([]);
  });

  it("borrows no limit from another edition", () => {
    expect(testsOf("nfpa-99-2005")).toEqual(["chassis-leakage", "ground-resistance"]);
    expect(testsOf("nfpa-99-2012")).not.toContain("chassis-leakage");
    const answer = electricalSafety({
      standard: "nfpa-99-2012",
      test: "chassis-leakage",
      value: 200,
      unit: "uA",
      conditions: {},
    });
    expect(refusalOf(answer)).toBe("test-not-in-standard");
    expect("message" in answer && answer.message).toContain("touch-current");
  });

  it.each<{ conditions: Conditions; why: string; names: string }>([
    { conditions: {}, why: "condition-missing", names: "leads: ordinary or isolated" },
    { conditions: { leads: "isolated" }, why: "condition-missing", names: "ground: intact or open" },
    { conditions: { ground: "open" }, why: "condition-missing", names: "leads: ordinary or isolated" },
  ])("asks for what the limit depends on: $names", ({ conditions, why, names }) => {
    const answer = electricalSafety({
      standard: "nfpa-99-2012",
      test: "patient-lead-leakage",
      value: 5,
      unit: "uA",
      conditions,
    });
    expect(refusalOf(answer)).toBe(why);
    expect("message" in answer && answer.message).toContain(names);
  });

  it("refuses a condition that has no limit, a unit of another kind, and a reading below 0", () => {
    const part = { standard: "iec-62353-2014", test: "applied-part-leakage" } as const;
    expect(refusalOf(electricalSafety({ ...part, value: 5, unit: "uA", conditions: { appliedPart: "B" } }))).toBe(
      "condition-without-limit",
    );
    expect(refusalOf(electricalSafety({ ...part, value: 5, unit: "ohm", conditions: { appliedPart: "CF" } }))).toBe(
      "wrong-unit",
    );
    expect(refusalOf(electricalSafety({ ...part, value: -5, unit: "uA", conditions: { appliedPart: "CF" } }))).toBe(
      "out-of-range",
    );
  });

  it("answers finite numbers or a reason, whatever it is given", () => {
    const given = fc.record({
      standard: fc.constantFrom(...ELECTRICAL_STANDARDS),
      test: fc.constantFrom(...ELECTRICAL_TESTS),
      unit: fc.constantFrom(...READING_UNITS),
      value: fc.double({ noNaN: true, noDefaultInfinity: true }),
      conditions: fc.constantFrom<Conditions>(
        {},
        { ground: "open" },
        { class: "I", method: "direct" },
        { appliedPart: "CF" },
      ),
    });
    fc.assert(
      fc.property(given, (reading) => {
        const answer = electricalSafety(reading);
        if (answer.ok) expect(allFinite(answer)).toBe(true);
        else refusalOf(answer);
      }),
      { numRuns: 500 },
    );
  });
});

describe("standards and conditions as people write them", () => {
  it("finds the standard with its edition, and none without one", () => {
    expect(electricalStandard("NFPA 99-2012")).toBe("nfpa-99-2012");
    expect(electricalStandard("IEC 62353:2014")).toBe("iec-62353-2014");
    expect(electricalStandard("nfpa-99-2005")).toBe("nfpa-99-2005");
    expect(electricalStandard("NFPA 99")).toBeNull();
    expect(electricalStandard("IEC 62353")).toBeNull();
  });

  it("reads conditions as words, and refuses what is none or says two things", () => {
    expect(conditionsFromWords(["ground intact", "Class II", "type BF"])).toEqual({
      ground: "intact",
      class: "II",
      appliedPart: "BF",
    });
    expect(conditionsFromWords(["with cord", "open ground", "I"])).toEqual({
      measured: "device-with-cord",
      ground: "open",
      class: "I",
    });
    expect(refusalOf(conditionsFromWords(["wet"]))).toBe("unknown-condition");
    expect(refusalOf(conditionsFromWords(["ground intact", "ground open"]))).toBe("unknown-condition");
  });

  it("scales by powers of ten as a decimal is written", () => {
    expect(scaledByTen(0.0003, 6)).toBe(300);
    expect(scaledByTen(0.29, 2)).toBe(29);
    expect(scaledByTen(-1.1e-7, 6)).toBe(-0.11);
    fc.assert(
      fc.property(fc.integer({ min: -99_999, max: 99_999 }), fc.integer({ min: -9, max: 9 }), (digits, power) => {
        expect(scaledByTen(digits, power)).toBe(Number(`${digits}e${power}`));
      }),
    );
  });
});
