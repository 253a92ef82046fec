import type { Rule } from "@/lib/domain/rule";
import { answered, cylinderOf, gauge } from "@/lib/domain/rules/examples";
import { passingOf } from "@/lib/domain/rules/failing";
import { cylinderNamed } from "@/lib/domain/rules/gauge";
import { lowerFirst, said, subjectName } from "@/lib/domain/wording";
import { isBelow, type Quantity, quantity } from "@/lib/units/quantity";

const citation =
  "Saturation pressure of nitrous oxide at 15 C, 639 psi or 44 bar (UK cylinder label), less a margin for reading: common practice, no source";
const settings = {
  under: {
    default: quantity(600, "psi") as Quantity,
    citation,
    iso: { default: quantity(41, "bar") as Quantity, citation },
  },
};

/**
 * While liquid remains the gauge stands still and tells nothing of the contents. Under the saturation pressure of a cool room no
 * liquid is left, and the cylinder will be empty soon. One chilled by high flow reads low until it has rested, so this is work
 * and never a stop.
 */
export const nitrousOxideGasPhase: Rule<typeof settings> = {
  id: "nitrous-oxide-gas-phase",
  inBrief: "nitrous oxide low",
  what: "A nitrous oxide cylinder with no liquid left is changed",
  severity: "due",
  citation,
  items: [],
  settings,
  allowedBy: [],
  judge: (context, { under }) =>
    passingOf(context, "cylinder-gauge").flatMap(({ subject, observation: { answer } }) => {
      const gas = cylinderNamed(subject, context.evidence)?.gas;
      if (gas !== "nitrous-oxide" || answer.kind !== "gauge" || isBelow(answer.reading, under) !== true) return [];
      const name = lowerFirst(subjectName(subject, context.evidence.workstation));
      const text = `Change ${name}: ${said(answer.reading)}, no liquid left (mark ${said(under)})`;
      return [{ subject, text, measured: answer.reading, limit: under, items: ["cylinder-gauge"] }];
    }),
  examples: [
    {
      name: "600 psi, liquid may remain",
      given: (ready) => answered(ready, "cylinder-gauge", gauge(600), cylinderOf(ready, "nitrous-oxide")),
      expect: "holds",
    },
    {
      name: "599 psi, gas alone",
      given: (ready) => answered(ready, "cylinder-gauge", gauge(599), cylinderOf(ready, "nitrous-oxide")),
      expect: "due",
    },
    {
      name: "40 bar, gas alone",
      scheme: "ISO",
      given: (ready) => answered(ready, "cylinder-gauge", gauge(40, "bar"), cylinderOf(ready, "nitrous-oxide")),
      expect: "due",
    },
    {
      name: "41 bar, liquid may remain",
      scheme: "ISO",
      given: (ready) => answered(ready, "cylinder-gauge", gauge(41, "bar"), cylinderOf(ready, "nitrous-oxide")),
      expect: "holds",
    },
  ],
};
