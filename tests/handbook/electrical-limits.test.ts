import { describe, expect, it } from "vitest";
import type { Conditions, ElectricalStandard, ElectricalTest } from "@/lib/calculations/electrical-limits";
import { electricalSafety, type ReadingUnit, type Verdict } from "@/lib/calculations/electrical-safety";
import { answerOf } from "@/tests/support/calculated";

interface Published {
  readonly source: string;
  readonly standard: ElectricalStandard;
  readonly test: ElectricalTest;
  readonly conditions: Conditions;
  readonly unit: ReadingUnit;
  readonly readings: readonly (readonly [value: number, verdict: Verdict])[];
}

const NFPA_2005 = "trade press on NFPA 99-2005 (secondary)";
const NFPA_2012 = "NFPA 99-2012 (from memory)";
const IEC = "IEC 62353:2014, excerpt";
const IEC_MEMORY = "IEC 62353:2014 (from memory)";

const LIMITS: readonly Published[] = [
  {
    source: `${NFPA_2005}: 300 uA; to 500 uA for existing or special equipment on conditions`,
    standard: "nfpa-99-2005",
    test: "chassis-leakage",
    conditions: {},
    unit: "uA",
    readings: [
      [300, "pass"],
      [301, "conditional"],
      [500, "conditional"],
      [501, "fail"],
    ],
  },
  {
    source: `${NFPA_2005}: less than 0.50 ohm`,
    standard: "nfpa-99-2005",
    test: "ground-resistance",
    conditions: {},
    unit: "ohm",
    readings: [
      [0.49, "pass"],
      [0.5, "fail"],
    ],
  },
  {
    source: NFPA_2012,
    standard: "nfpa-99-2012",
    test: "touch-current",
    conditions: { ground: "intact" },
    unit: "uA",
    readings: [
      [100, "pass"],
      [101, "fail"],
    ],
  },
  {
    source: NFPA_2012,
    standard: "nfpa-99-2012",
    test: "touch-current",
    conditions: { ground: "open" },
    unit: "uA",
    readings: [
      [500, "pass"],
      [501, "fail"],
    ],
  },
  {
    source: NFPA_2012,
    standard: "nfpa-99-2012",
    test: "patient-lead-leakage",
    conditions: { leads: "isolated", ground: "intact" },
    unit: "uA",
    readings: [
      [10, "pass"],
      [10.1, "fail"],
    ],
  },
  {
    source: NFPA_2012,
    standard: "nfpa-99-2012",
    test: "patient-lead-leakage",
    conditions: { leads: "isolated", ground: "open" },
    unit: "uA",
    readings: [
      [50, "pass"],
      [51, "fail"],
    ],
  },
  {
    source: NFPA_2012,
    standard: "nfpa-99-2012",
    test: "patient-lead-leakage",
    conditions: { leads: "ordinary" },
    unit: "uA",
    readings: [
      [100, "pass"],
      [101, "fail"],
    ],
  },
  {
    source: IEC,
    standard: "iec-62353-2014",
    test: "protective-earth-resistance",
    conditions: { measured: "device-with-cord" },
    unit: "mohm",
    readings: [
      [300, "pass"],
      [301, "fail"],
    ],
  },
  {
    source: IEC,
    standard: "iec-62353-2014",
    test: "protective-earth-resistance",
    conditions: { measured: "device-only" },
    unit: "mohm",
    readings: [
      [200, "pass"],
      [201, "fail"],
    ],
  },
  {
    source: IEC,
    standard: "iec-62353-2014",
    test: "protective-earth-resistance",
    conditions: { measured: "cord-only" },
    unit: "mohm",
    readings: [
      [100, "pass"],
      [101, "fail"],
    ],
  },
  {
    source: IEC_MEMORY,
    standard: "iec-62353-2014",
    test: "applied-part-leakage",
    conditions: { appliedPart: "CF" },
    unit: "uA",
    readings: [
      [50, "pass"],
      [51, "fail"],
    ],
  },
  {
    source: IEC_MEMORY,
    standard: "iec-62353-2014",
    test: "applied-part-leakage",
    conditions: { appliedPart: "BF" },
    unit: "uA",
    readings: [
      [5000, "pass"],
      [5001, "fail"],
    ],
  },
  {
    source: IEC_MEMORY,
    standard: "iec-62353-2014",
    test: "equipment-leakage",
    conditions: { method: "direct", class: "I" },
    unit: "uA",
    readings: [
      [500, "pass"],
      [501, "fail"],
    ],
  },
  {
    source: IEC_MEMORY,
    standard: "iec-62353-2014",
    test: "equipment-leakage",
    conditions: { method: "differential", class: "II" },
    unit: "uA",
    readings: [
      [100, "pass"],
      [101, "fail"],
    ],
  },
  {
    source: IEC_MEMORY,
    standard: "iec-62353-2014",
    test: "equipment-leakage",
    conditions: { method: "alternative", class: "I" },
    unit: "uA",
    readings: [
      [1000, "pass"],
      [1001, "fail"],
    ],
  },
];

describe.each(LIMITS)("$standard $test $conditions ($source)", ({ standard, test, conditions, unit, readings }) => {
  it.each(readings)(`%s ${unit} is %s`, (value, verdict) => {
    expect(answerOf(electricalSafety({ standard, test, value, unit, conditions }))).toBe(verdict);
  });
});
