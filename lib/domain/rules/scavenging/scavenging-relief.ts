import type { Rule } from "@/lib/domain/rule";
import { answered, bad, good, reading } from "@/lib/domain/rules/examples";
import { failingOf, noted } from "@/lib/domain/rules/failing";
import { said } from "@/lib/domain/wording";
import { isAbove, type Quantity, quantity } from "@/lib/units/quantity";

const settings = {
  atMost: {
    default: quantity(10, "cmH2O") as Quantity,
    citation: "FDA anesthesia apparatus checkout 1993, step 8: below 10 cmH2O with the oxygen flush (from memory)",
  },
};

/** A blocked relief puts the waste-gas system's pressure on the patient's lungs. */
export const scavengingRelief: Rule<typeof settings> = {
  id: "scavenging-relief",
  inBrief: "scavenging relief",
  what: "The scavenging system relieves pressure",
  severity: "stops",
  citation: settings.atMost.citation,
  items: ["scavenging-relief"],
  settings,
  allowedBy: [],
  onlyOfFailing: true,
  assess: (answer, _about, { atMost }) => {
    if (answer.kind === "pass") return answer.passed ? "pass" : "fail";
    const above = answer.kind === "number" ? isAbove(answer.reading, atMost) : null;
    return above === null ? "uncounted" : above ? "fail" : "pass";
  },
  shows: (_about, { atMost }) => ({ atMost }),
  judge: (context, { atMost }) =>
    failingOf(context, "scavenging-relief").map(({ subject, observation: { answer, observedAt } }) => {
      const measured = answer.kind === "number" ? answer.reading : null;
      const text = measured
        ? `Scavenging holds ${said(measured)} under flush (at most ${said(atMost)})`
        : `Scavenging relief fails or is occluded${noted(answer)}`;
      return { subject, text, measured, limit: atMost, since: observedAt };
    }),
  examples: [
    { name: "10 cmH2O", given: (ready) => answered(ready, "scavenging-relief", reading(10, "cmH2O")), expect: "holds" },
    {
      name: "10.1 cmH2O",
      given: (ready) => answered(ready, "scavenging-relief", reading(10.1, "cmH2O")),
      expect: "stops",
    },
    { name: "relieves", given: (ready) => answered(ready, "scavenging-relief", good), expect: "holds" },
    { name: "occluded", given: (ready) => answered(ready, "scavenging-relief", bad), expect: "stops" },
  ],
};
