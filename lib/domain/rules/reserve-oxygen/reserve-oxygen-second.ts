import type { Rule } from "@/lib/domain/rule";
import { answered, cylinderOf, gauge } from "@/lib/domain/rules/examples";
import { answeredOf } from "@/lib/domain/rules/failing";
import { cylinderNamed, limitFor } from "@/lib/domain/rules/gauge";
import { lowerFirst, said, subjectName } from "@/lib/domain/wording";
import { isBelow, type Quantity, quantity } from "@/lib/units/quantity";

const citation = "common practice, no source";
const settings = {
  swapMark: {
    default: quantity(1200, "psi") as Quantity,
    citation,
    iso: { default: quantity(60, "%") as Quantity, citation },
  },
};

/** A cylinder near its limit is changed before a case drains it, while somebody is still near the store. */
export const reserveOxygenSecond: Rule<typeof settings> = {
  id: "reserve-oxygen-second",
  inBrief: "second cylinder low",
  what: "An oxygen cylinder under the swap mark is changed, also where another one is good",
  severity: "due",
  citation,
  items: [],
  settings,
  allowedBy: [],
  judge: (context, { swapMark }) => {
    const { workstation, facility } = context.evidence;
    return answeredOf(context, "cylinder-gauge").flatMap(({ subject, observation }) => {
      const cylinder = cylinderNamed(subject, context.evidence);
      const { answer } = observation;
      if (cylinder?.gas !== "oxygen" || answer.kind !== "gauge") return [];
      const mark = limitFor(cylinder, swapMark, facility.pressureUnit);
      if (isBelow(answer.reading, mark) !== true) return [];
      const text = `Change ${lowerFirst(subjectName(subject, workstation))}: ${said(answer.reading)} (swap mark ${said(mark)})`;
      return [{ subject, text, measured: answer.reading, limit: mark, items: ["cylinder-gauge"] }];
    });
  },
  examples: [
    {
      name: "1,200 psi, the mark itself",
      given: (ready) => answered(ready, "cylinder-gauge", gauge(1200), cylinderOf(ready, "oxygen")),
      expect: "holds",
    },
    {
      name: "1,199 psi",
      given: (ready) => answered(ready, "cylinder-gauge", gauge(1199), cylinderOf(ready, "oxygen")),
      expect: "due",
    },
  ],
};
