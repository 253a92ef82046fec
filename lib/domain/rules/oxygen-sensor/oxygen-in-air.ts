import type { Rule } from "@/lib/domain/rule";
import { isWithin } from "@/lib/domain/rules/around";
import { answered, reading, unanswered, withRoom } from "@/lib/domain/rules/examples";
import { failingOf } from "@/lib/domain/rules/failing";
import { unlessAnalyzer } from "@/lib/domain/rules/oxygen-sensor/free-standing";
import { said } from "@/lib/domain/wording";
import { type Quantity, quantity } from "@/lib/units/quantity";

const citation =
  "FDA anesthesia apparatus checkout 1993, step 9: 21 % in room air; the tolerance is common practice, no source";
const settings = {
  expected: { default: quantity(21, "%") as Quantity, citation },
  within: { default: quantity(1, "%") as Quantity, citation },
};

/** After calibration the sensor must tell room air from a hypoxic mixture: it is the last guard of all. */
export const oxygenInAir: Rule<typeof settings> = {
  id: "oxygen-in-air",
  inBrief: "oxygen sensor",
  what: "After calibration the oxygen sensor reads room air",
  severity: "stops",
  citation,
  items: ["oxygen-in-air"],
  settings,
  allowedBy: [],
  onlyOfFailing: true,
  assess: (answer, _about, { expected, within }) => {
    if (answer.kind === "pass") return answer.passed ? "pass" : "fail";
    if (answer.kind !== "number" || answer.reading.unit !== "%") return "uncounted";
    return isWithin(answer.reading.value, expected.value, within.value) ? "pass" : "fail";
  },
  shows: (_about, { expected, within }) => ({
    atLeast: quantity(expected.value - within.value, "%"),
    atMost: quantity(expected.value + within.value, "%"),
  }),
  judge: (context, { expected, within }) =>
    failingOf(context, "oxygen-in-air").map(({ subject, observation: { answer, observedAt } }) => {
      const limit = `${said(expected)} ± ${said(within)}`;
      const measured = answer.kind === "number" ? answer.reading : null;
      const text = measured
        ? `Oxygen sensor reads ${said(measured)} in room air (${limit})`
        : "Oxygen sensor fails in room air";
      return unlessAnalyzer(context, { subject, text, measured, limit, since: observedAt });
    }),
  examples: [
    { name: "20 %", given: (ready) => answered(ready, "oxygen-in-air", reading(20, "%")), expect: "holds" },
    { name: "22 %", given: (ready) => answered(ready, "oxygen-in-air", reading(22, "%")), expect: "holds" },
    { name: "19.9 %", given: (ready) => answered(ready, "oxygen-in-air", reading(19.9, "%")), expect: "stops" },
    { name: "22.1 %", given: (ready) => answered(ready, "oxygen-in-air", reading(22.1, "%")), expect: "stops" },
    {
      name: "the same with a free-standing analyzer in the room",
      given: (ready) =>
        withRoom(answered(ready, "oxygen-in-air", reading(19.9, "%")), { portable: ["oxygen-analyzer"] }),
      expect: "due",
    },
    { name: "not read", given: (ready) => unanswered(ready, "oxygen-in-air"), expect: "owed" },
  ],
};
