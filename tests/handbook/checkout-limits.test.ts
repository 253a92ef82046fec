import { describe, expect, it } from "vitest";
import type { Answer } from "@/lib/domain/answer";
import type { Evidence } from "@/lib/domain/evidence";
import type { ItemId } from "@/lib/domain/items";
import { judge } from "@/lib/domain/judge";
import type { Severity } from "@/lib/domain/judgement";
import { answered, bad, chosen, gauge, good, reading, timed, withValues } from "@/lib/domain/rules/examples";
import { quantity } from "@/lib/units/quantity";
import { readyRoom } from "@/tests/support/ready-room";

/**
 * Limits as published check lists and standards state them, held against the judge from outside: the rules' own examples come
 * from the rules, these come from the sources named beside them.
 */
interface Published {
  readonly source: string;
  readonly item: ItemId;
  readonly answer: Answer;
  readonly subject?: string;
  readonly severity: Severity | null;
}

const FDA = "FDA anesthesia apparatus checkout 1993, as published by APSF";
const CHECKS: readonly Published[] = [
  {
    source: `${FDA}, step 2: at least half full, about 1,000 psi`,
    item: "cylinder-gauge",
    subject: "cylinder-o2",
    answer: gauge(1000),
    severity: "due",
  },
  { source: `${FDA}, step 2`, item: "cylinder-gauge", subject: "cylinder-o2", answer: gauge(999), severity: "stops" },
  {
    source: `${FDA}, step 2; older lists accepted 600 psi`,
    item: "cylinder-gauge",
    subject: "cylinder-o2",
    answer: gauge(600),
    severity: "stops",
  },
  {
    source: "ASA 2008, item 6: 50 psi or more; FDA 1992 draft: 45 to 55 psi",
    item: "pipeline-pressure",
    subject: "oxygen",
    answer: reading(49, "psi"),
    severity: "note",
  },
  {
    source: "ASA 2008, item 6",
    item: "pipeline-pressure",
    subject: "oxygen",
    answer: reading(50, "psi"),
    severity: null,
  },
  {
    source: "FDA 1992 draft: 45 to 55 psi",
    item: "pipeline-pressure",
    subject: "oxygen",
    answer: reading(44, "psi"),
    severity: "stops",
  },
  {
    source: "NFPA 99, alarm at 20 % over 50 psi (from memory)",
    item: "pipeline-pressure",
    subject: "oxygen",
    answer: reading(61, "psi"),
    severity: "stops",
  },
  {
    source: `${FDA}, step 5: bulb collapsed at least 10 s`,
    item: "low-pressure-leak",
    answer: timed(10),
    severity: null,
  },
  { source: `${FDA}, step 5`, item: "low-pressure-leak", answer: timed(9), severity: "stops" },
  {
    source: "ISO 80601-2-13: 150 mL/min at 30 cmH2O (from memory)",
    item: "breathing-leak",
    answer: reading(150, "mL/min"),
    severity: null,
  },
  { source: "ISO 80601-2-13 (from memory)", item: "breathing-leak", answer: reading(151, "mL/min"), severity: "stops" },
  {
    source: `${FDA}, step 11: steady for at least 10 s at 30 cmH2O (from memory)`,
    item: "breathing-leak",
    answer: timed(10),
    severity: null,
  },
  {
    source: "ISO 80601-2-13: gas delivery leak 50 mL/min at 3 kPa (from memory)",
    item: "low-pressure-leak",
    answer: reading(51, "mL/min"),
    severity: "stops",
  },
  {
    source: "FDA 1992 draft: over 90 % after flush",
    item: "oxygen-after-flush",
    answer: reading(90, "%"),
    severity: "stops",
  },
  {
    source: "FDA 1992 draft: over 90 % after flush",
    item: "oxygen-after-flush",
    answer: reading(90.1, "%"),
    severity: null,
  },
  {
    source: "ISO 80601-2-55: 3 % at 21 % (from memory): as found, never a stop",
    item: "oxygen-as-found",
    answer: reading(24.1, "%"),
    severity: "due",
  },
  {
    source: "ISO 80601-2-55: 3 % at 21 % (from memory)",
    item: "oxygen-as-found",
    answer: reading(24, "%"),
    severity: null,
  },
  {
    source: "Jorgensen 1977: colour shift to two thirds of the charge",
    item: "absorbent-colour",
    answer: chosen("two-thirds"),
    severity: "stops",
  },
  { source: "Jorgensen 1977: under two thirds", item: "absorbent-colour", answer: chosen("half"), severity: "due" },
  {
    source: "J Clin Monit Comput 2018: end point 0.5 % inspired",
    item: "absorbent-co2",
    answer: reading(0.5, "%"),
    severity: "stops",
  },
  { source: "J Clin Monit Comput 2018", item: "absorbent-co2", answer: reading(0.4, "%"), severity: null },
  {
    source: `${FDA}, step 8: below 10 cmH2O with the flush (from memory)`,
    item: "scavenging-relief",
    answer: reading(11, "cmH2O"),
    severity: "stops",
  },
  {
    source: "ISO 80601-2-13, ASTM F1850: at least 25 % oxygen (from memory)",
    item: "hypoxic-guard",
    answer: reading(24, "%"),
    severity: "stops",
  },
  {
    source: "ASA 2008, item 1: self-inflating bag present and working",
    item: "self-inflating-bag",
    answer: bad,
    severity: "stops",
  },
  { source: "ASA 2008, item 13: gas flows correctly in both phases", item: "valves", answer: bad, severity: "stops" },
  { source: "ASA 2008, item 13", item: "valves", answer: good, severity: null },
];

const worstOf = (evidence: Evidence): Severity | null => judge(evidence).reasons[0]?.severity ?? null;

describe("published limits", () => {
  it.each(CHECKS)("$item $answer is $severity ($source)", ({ item, answer, subject, severity }) => {
    const ready = readyRoom("US");
    expect(worstOf(answered(ready, item, answer, ({ id }) => subject === undefined || id === subject))).toBe(severity);
  });

  it("accepts 600 psi where a department keeps the older list", () => {
    const ready = answered(readyRoom("US"), "cylinder-gauge", gauge(600), ({ id }) => id === "cylinder-o2");
    const older = withValues(ready, "reserve-oxygen-low", { atLeast: quantity(600, "psi") });
    expect(judge(older).state).toBe("ready");
  });

  // Meagher 1991, suction in operating theatres: at least 60 kPa below ambient.
  it.each([
    { kPa: 60, severity: null },
    { kPa: 59, severity: "stops" },
  ])("suction $kPa kPa on the ISO scheme is $severity", ({ kPa, severity }) => {
    expect(worstOf(answered(readyRoom("ISO"), "suction", reading(kPa, "kPa")))).toBe(severity);
  });

  // FRCA tutorial on gas supply: the UK pipeline runs at 400 kPa, which is 58 psi and would be high on the US scheme.
  it("calls 400 kPa normal on the ISO scheme and 58 psi high on the US one", () => {
    const oxygen = ({ id }: { id: string }) => id === "oxygen";
    expect(worstOf(answered(readyRoom("ISO"), "pipeline-pressure", reading(400, "kPa"), oxygen))).toBeNull();
    expect(worstOf(answered(readyRoom("US"), "pipeline-pressure", reading(58, "psi"), oxygen))).toBe("note");
  });
});
