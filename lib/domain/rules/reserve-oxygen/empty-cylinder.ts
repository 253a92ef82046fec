import type { Rule } from "@/lib/domain/rule";
import { answered, cylinderOf, gauge } from "@/lib/domain/rules/examples";
import { answeredOf } from "@/lib/domain/rules/failing";
import { cylinderNamed } from "@/lib/domain/rules/gauge";
import { lowerFirst, said, subjectName } from "@/lib/domain/wording";
import { isAbove, type Quantity, quantity } from "@/lib/units/quantity";

const citation = "common practice, no source; empty yokes get a plug (Dorsch and Dorsch, from memory)";
const settings = {
  atMost: {
    default: quantity(50, "psi") as Quantity,
    citation,
    iso: { default: quantity(3.5, "bar") as Quantity, citation },
  },
};

/** An empty cylinder left on its yoke is one day taken for a reserve. */
export const emptyCylinder: Rule<typeof settings> = {
  id: "empty-cylinder",
  inBrief: "empty cylinder",
  what: "An empty cylinder is taken off its yoke, and the yoke gets another one or a plug",
  severity: "due",
  citation,
  items: [],
  settings,
  allowedBy: [],
  judge: (context, { atMost }) =>
    answeredOf(context, "cylinder-gauge").flatMap(({ subject, observation: { answer } }) => {
      const cylinder = cylinderNamed(subject, context.evidence);
      if (cylinder === null || answer.kind !== "gauge" || isAbove(answer.reading, atMost) !== false) return [];
      const name = lowerFirst(subjectName(subject, context.evidence.workstation));
      const text = `Empty cylinder on its yoke, ${name}: ${said(answer.reading)}`;
      return [{ subject, text, measured: answer.reading, limit: atMost, items: ["cylinder-gauge"] }];
    }),
  examples: [
    {
      name: "nitrous oxide at 51 psi",
      given: (ready) => answered(ready, "cylinder-gauge", gauge(51), cylinderOf(ready, "nitrous-oxide")),
      expect: "holds",
    },
    {
      name: "nitrous oxide at 50 psi",
      given: (ready) => answered(ready, "cylinder-gauge", gauge(50), cylinderOf(ready, "nitrous-oxide")),
      expect: "due",
    },
  ],
};
