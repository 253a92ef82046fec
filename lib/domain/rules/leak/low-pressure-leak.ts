import type { Rule } from "@/lib/domain/rule";
import { answered, bad, reading, timed, unanswered } from "@/lib/domain/rules/examples";
import { failingOf } from "@/lib/domain/rules/failing";
import { leakAssessment, leakText } from "@/lib/domain/rules/leak-test";
import { type Quantity, quantity } from "@/lib/units/quantity";

const settings = {
  bulbHolds: {
    default: quantity(10, "s") as Quantity,
    citation: "FDA anesthesia apparatus checkout 1993, step 5: suction bulb stays collapsed at least 10 s",
  },
  atMost: {
    default: quantity(50, "mL/min") as Quantity,
    citation: "ISO 80601-2-13: gas delivery leak at 3 kPa (from memory)",
  },
};

/**
 * A leak between flow controls and outlet thins the gas and the agent. Tested as the model allows: bulb, self-test, or a measured
 * leak at positive pressure; a model without a reachable outlet is not asked.
 */
export const lowPressureLeak: Rule<typeof settings> = {
  id: "low-pressure-leak",
  inBrief: "low-pressure leak",
  what: "No leak between the flow controls and the common gas outlet, by the model's own method",
  severity: "stops",
  citation: settings.bulbHolds.citation,
  items: ["low-pressure-leak"],
  settings,
  allowedBy: [],
  onlyOfFailing: true,
  assess: (answer, _about, values) => leakAssessment(answer, values.bulbHolds, values.atMost),
  shows: ({ place }, values) =>
    place.workstation?.model.leakTest === "bulb" ? { atLeast: values.bulbHolds } : { atMost: values.atMost },
  judge: (context, { bulbHolds, atMost }) =>
    failingOf(context, "low-pressure-leak").map(({ subject, observation }) => ({
      subject,
      since: observation.observedAt,
      ...leakText("Low-pressure leak test", "Low-pressure system leaks", observation.answer, bulbHolds, atMost),
    })),
  examples: [
    { name: "bulb held 10 s", given: (ready) => answered(ready, "low-pressure-leak", timed(10)), expect: "holds" },
    { name: "bulb held 9 s", given: (ready) => answered(ready, "low-pressure-leak", timed(9)), expect: "stops" },
    {
      name: "bulb reinflated",
      given: (ready) => answered(ready, "low-pressure-leak", timed(12, false)),
      expect: "stops",
    },
    {
      name: "50 mL/min measured",
      given: (ready) => answered(ready, "low-pressure-leak", reading(50, "mL/min")),
      expect: "holds",
    },
    {
      name: "51 mL/min measured",
      given: (ready) => answered(ready, "low-pressure-leak", reading(51, "mL/min")),
      expect: "stops",
    },
    { name: "failed without a number", given: (ready) => answered(ready, "low-pressure-leak", bad), expect: "stops" },
    { name: "not tested", given: (ready) => unanswered(ready, "low-pressure-leak"), expect: "owed" },
  ],
};
