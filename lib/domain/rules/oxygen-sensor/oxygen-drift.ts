import type { Rule } from "@/lib/domain/rule";
import { isWithin } from "@/lib/domain/rules/around";
import { answered, reading } from "@/lib/domain/rules/examples";
import { passingOf } from "@/lib/domain/rules/failing";
import { said } from "@/lib/domain/wording";
import { type Quantity, quantity } from "@/lib/units/quantity";

const citation = "ISO 80601-2-55: accuracy of 2.5 % of volume plus 2.5 % of level, 3 % at 21 % (from memory)";
const settings = {
  expected: { default: quantity(21, "%") as Quantity, citation },
  within: { default: quantity(3, "%") as Quantity, citation },
};

/** As found, before calibration: how far the sensor had drifted. It never stops; the reading after calibration decides. */
export const oxygenDrift: Rule<typeof settings> = {
  id: "oxygen-drift",
  inBrief: "sensor drifting",
  what: "The oxygen sensor as found, before calibration, tells of a cell near its end",
  severity: "due",
  citation,
  items: ["oxygen-as-found"],
  settings,
  allowedBy: [],
  assess: (answer, _about, { expected, within }) => {
    if (answer.kind === "pass") return answer.passed ? "pass" : "remark";
    if (answer.kind !== "number" || answer.reading.unit !== "%") return "uncounted";
    return isWithin(answer.reading.value, expected.value, within.value) ? "pass" : "remark";
  },
  shows: () => null,
  judge: (context, { expected, within }) =>
    passingOf(context, "oxygen-as-found").flatMap(({ subject, observation: { answer } }) => {
      const limit = `${said(expected)} ± ${said(within)}`;
      if (answer.kind === "pass" && !answer.passed)
        return [{ subject, text: "Oxygen sensor drifting, as found", limit }];
      if (answer.kind !== "number" || isWithin(answer.reading.value, expected.value, within.value)) return [];
      const text = `Oxygen sensor drifting: ${said(answer.reading)} as found (${limit})`;
      return [{ subject, text, measured: answer.reading, limit }];
    }),
  examples: [
    { name: "24 %, inside", given: (ready) => answered(ready, "oxygen-as-found", reading(24, "%")), expect: "holds" },
    { name: "24.1 %, drift", given: (ready) => answered(ready, "oxygen-as-found", reading(24.1, "%")), expect: "due" },
    { name: "18 %, inside", given: (ready) => answered(ready, "oxygen-as-found", reading(18, "%")), expect: "holds" },
    { name: "17.9 %, drift", given: (ready) => answered(ready, "oxygen-as-found", reading(17.9, "%")), expect: "due" },
  ],
};
