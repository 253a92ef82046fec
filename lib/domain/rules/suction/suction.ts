import type { Rule } from "@/lib/domain/rule";
import { answered, bad, reading, unanswered } from "@/lib/domain/rules/examples";
import { failingOf, noted } from "@/lib/domain/rules/failing";
import { said } from "@/lib/domain/wording";
import { isBelow, type Quantity, quantity } from "@/lib/units/quantity";

const settings = {
  atLeast: {
    default: quantity(300, "mmHg") as Quantity,
    citation: "common practice, no source",
    iso: {
      default: quantity(60, "kPa") as Quantity,
      citation: "Meagher 1991, suction in operating theatres: at least 60 kPa below ambient, occluded (abstract)",
    },
  },
};

/** Without suction an airway that fills cannot be cleared. */
export const suction: Rule<typeof settings> = {
  id: "suction",
  inBrief: "suction",
  what: "Suction reaches its vacuum with the tube occluded",
  severity: "stops",
  citation: "ASA pre-anesthesia checkout 2008, item 2; the number is the setting's own",
  items: ["suction"],
  settings,
  allowedBy: [],
  onlyOfFailing: true,
  assess: (answer, _about, { atLeast }) => {
    if (answer.kind === "pass") return answer.passed ? "pass" : "fail";
    const below = answer.kind === "number" ? isBelow(answer.reading, atLeast) : null;
    return below === null ? "uncounted" : below ? "fail" : "pass";
  },
  shows: (_about, { atLeast }) => ({ atLeast }),
  judge: (context, { atLeast }) =>
    failingOf(context, "suction").map(({ subject, observation: { answer, observedAt } }) => {
      const measured = answer.kind === "number" ? answer.reading : null;
      const text = measured
        ? `Suction ${said(measured)} occluded (at least ${said(atLeast)})`
        : `Suction absent or failed${noted(answer)}`;
      return { subject, text, measured, limit: atLeast, since: observedAt };
    }),
  examples: [
    { name: "300 mmHg", given: (ready) => answered(ready, "suction", reading(300, "mmHg")), expect: "holds" },
    { name: "299 mmHg", given: (ready) => answered(ready, "suction", reading(299, "mmHg")), expect: "stops" },
    { name: "absent", given: (ready) => answered(ready, "suction", bad), expect: "stops" },
    {
      name: "60 kPa",
      scheme: "ISO",
      given: (ready) => answered(ready, "suction", reading(60, "kPa")),
      expect: "holds",
    },
    {
      name: "59 kPa",
      scheme: "ISO",
      given: (ready) => answered(ready, "suction", reading(59, "kPa")),
      expect: "stops",
    },
    { name: "not tried", given: (ready) => unanswered(ready, "suction"), expect: "owed" },
  ],
};
