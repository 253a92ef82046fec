import type { Rule } from "@/lib/domain/rule";
import { answered, bad, good, reading, unanswered } from "@/lib/domain/rules/examples";
import { failingOf, noted } from "@/lib/domain/rules/failing";
import { said } from "@/lib/domain/wording";
import { isBelow, type Quantity, quantity } from "@/lib/units/quantity";

const settings = {
  atLeast: {
    default: quantity(25, "%") as Quantity,
    citation: "ISO 80601-2-13 and ASTM F1850: at least 25 % oxygen with nitrous oxide (from memory)",
  },
};

/** With nitrous oxide turned up and oxygen turned down, oxygen must follow or nitrous oxide must be held back. */
export const hypoxicGuard: Rule<typeof settings> = {
  id: "hypoxic-guard",
  what: "The hypoxic guard keeps oxygen in the mixture with nitrous oxide",
  severity: "stops",
  citation: settings.atLeast.citation,
  items: ["hypoxic-guard"],
  settings,
  allowedBy: [],
  assess: (answer, _about, { atLeast }) => {
    if (answer.kind === "pass") return answer.passed ? "pass" : "fail";
    const below = answer.kind === "number" ? isBelow(answer.reading, atLeast) : null;
    return below === null ? "uncounted" : below ? "fail" : "pass";
  },
  shows: (_about, { atLeast }) => ({ atLeast }),
  judge: (context, { atLeast }) =>
    failingOf(context, "hypoxic-guard").map(({ subject, observation: { answer, observedAt } }) => {
      const measured = answer.kind === "number" ? answer.reading : null;
      const text = measured
        ? `Hypoxic guard lets oxygen fall to ${said(measured)} (at least ${said(atLeast)})`
        : `Hypoxic guard failed${noted(answer)}`;
      return { subject, text, measured, limit: atLeast, since: observedAt };
    }),
  examples: [
    { name: "25 % oxygen", given: (ready) => answered(ready, "hypoxic-guard", reading(25, "%")), expect: "holds" },
    { name: "24.9 % oxygen", given: (ready) => answered(ready, "hypoxic-guard", reading(24.9, "%")), expect: "stops" },
    { name: "works", given: (ready) => answered(ready, "hypoxic-guard", good), expect: "holds" },
    { name: "failed", given: (ready) => answered(ready, "hypoxic-guard", bad), expect: "stops" },
    { name: "not tried", given: (ready) => unanswered(ready, "hypoxic-guard"), expect: "owed" },
  ],
};
