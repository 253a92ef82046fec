import type { Rule } from "@/lib/domain/rule";
import { answered, cylinderOf, gauge } from "@/lib/domain/rules/examples";
import { answeredOf } from "@/lib/domain/rules/failing";
import { lowerFirst, subjectName } from "@/lib/domain/wording";

/** An open reserve drains silently when the pipeline falls, instead of sounding the alarm that asks for it to be opened. */
export const valveLeftOpen: Rule = {
  id: "valve-left-open",
  inBrief: "valve left open",
  what: "A cylinder valve is shut again after its gauge was read",
  severity: "due",
  citation: "Association of Anaesthetists 2012, session check: cylinders filled and turned off (from memory)",
  items: [],
  settings: {},
  allowedBy: [],
  judge: (context) =>
    answeredOf(context, "cylinder-gauge")
      .filter(({ observation: { answer } }) => answer.kind === "gauge" && answer.openWhenRead && !answer.shutAgain)
      .map(({ subject }) => ({
        subject,
        text: `Shut the valve of ${lowerFirst(subjectName(subject, context.evidence.workstation))}: left open after reading`,
        items: ["cylinder-gauge"],
      })),
  examples: [
    {
      name: "shut again",
      given: (ready) => answered(ready, "cylinder-gauge", gauge(1900), cylinderOf(ready, "oxygen")),
      expect: "holds",
    },
    {
      name: "left open",
      given: (ready) =>
        answered(ready, "cylinder-gauge", gauge(1900, "psi", { shutAgain: false }), cylinderOf(ready, "oxygen")),
      expect: "due",
    },
  ],
};
