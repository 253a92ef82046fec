import type { Rule } from "@/lib/domain/rule";
import { answered, reading } from "@/lib/domain/rules/examples";
import { failingOf } from "@/lib/domain/rules/failing";
import { said } from "@/lib/domain/wording";
import { isBelow, type Quantity, quantity } from "@/lib/units/quantity";

const settings = {
  under: {
    default: quantity(0.5, "%") as Quantity,
    citation:
      "Research end point of in vitro absorber studies, J Clin Monit Comput 2018, doi 10.1007/s10877-017-0088-x",
  },
};

/** Inspired carbon dioxide says what the dye only suggests. */
export const absorbentCo2: Rule<typeof settings> = {
  id: "absorbent-co2",
  inBrief: "inspired CO₂ high",
  what: "Inspired carbon dioxide stays under its limit",
  severity: "stops",
  citation: settings.under.citation,
  items: ["absorbent-co2"],
  settings,
  allowedBy: [],
  onlyOfFailing: true,
  assess: (answer, _about, { under }) => {
    if (answer.kind === "pass") return answer.passed ? "pass" : "fail";
    const below = answer.kind === "number" ? isBelow(answer.reading, under) : null;
    return below === null ? "uncounted" : below ? "pass" : "fail";
  },
  shows: () => null,
  judge: (context, { under }) =>
    failingOf(context, "absorbent-co2").map(({ subject, observation: { answer, observedAt } }) => {
      const measured = answer.kind === "number" ? answer.reading : null;
      const text = measured
        ? `Inspired carbon dioxide ${said(measured)} (under ${said(under)})`
        : "Inspired carbon dioxide too high";
      return { subject, text, measured, limit: under, since: observedAt };
    }),
  examples: [
    { name: "0.4 %", given: (ready) => answered(ready, "absorbent-co2", reading(0.4, "%")), expect: "holds" },
    {
      name: "0.5 %, the limit itself",
      given: (ready) => answered(ready, "absorbent-co2", reading(0.5, "%")),
      expect: "stops",
    },
    { name: "0.6 %", given: (ready) => answered(ready, "absorbent-co2", reading(0.6, "%")), expect: "stops" },
  ],
};
