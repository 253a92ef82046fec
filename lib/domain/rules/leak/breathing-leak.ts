import type { Rule } from "@/lib/domain/rule";
import { answered, bad, reading, timed, unanswered, withValues } from "@/lib/domain/rules/examples";
import { failingOf } from "@/lib/domain/rules/failing";
import { leakAssessment, leakText } from "@/lib/domain/rules/leak-test";
import { isAbove, type Quantity, quantity } from "@/lib/units/quantity";

const settings = {
  atMost: {
    default: quantity(150, "mL/min") as Quantity,
    citation: "ISO 80601-2-13: breathing system leak at 3 kPa, 30 cmH2O (from memory)",
  },
  holdsFor: {
    default: quantity(10, "s") as Quantity,
    citation: "FDA anesthesia apparatus checkout 1993, step 11: steady at 30 cmH2O for at least 10 s (from memory)",
  },
  /** Off while it is not over the limit: a site that allows a larger leak at higher flows says how large. */
  noLowFlowUpTo: { default: quantity(0, "mL/min") as Quantity, citation: "off; no source" },
};

/** A leak here makes ventilation weak and low flow impossible; most morning leaks are a canister badly seated. */
export const breathingLeak: Rule<typeof settings> = {
  id: "breathing-leak",
  inBrief: "breathing leak",
  what: "The breathing system holds its pressure",
  severity: "stops",
  citation: settings.atMost.citation,
  items: ["breathing-leak"],
  settings,
  allowedBy: ["charge-provider"],
  use: {
    first: "Reseat canister, bag, water trap and sample line and test once more.",
    differently: "No low flow: fresh gas well above the leak.",
    longest: "this-list",
  },
  onlyOfFailing: true,
  assess: (answer, _about, values) => leakAssessment(answer, values.holdsFor, values.atMost),
  shows: (_about, { atMost }) => ({ atMost }),
  judge: (context, { atMost, holdsFor, noLowFlowUpTo }) =>
    failingOf(context, "breathing-leak").map(({ subject, observation }) => {
      const { answer } = observation;
      const text = leakText(
        "Breathing-system leak test",
        "Breathing system leaks",
        answer,
        holdsFor,
        atMost,
        " at 30 cmH₂O",
      );
      const bearable = answer.kind === "number" && isAbove(answer.reading, noLowFlowUpTo) === false;
      const draft = { subject, since: observation.observedAt, ...text };
      return bearable ? { ...draft, severity: "limits", takesAway: ["no-low-flow"] } : draft;
    }),
  examples: [
    {
      name: "150 mL/min",
      given: (ready) => answered(ready, "breathing-leak", reading(150, "mL/min")),
      expect: "holds",
    },
    {
      name: "151 mL/min",
      given: (ready) => answered(ready, "breathing-leak", reading(151, "mL/min")),
      expect: "stops",
    },
    { name: "held 10 s", given: (ready) => answered(ready, "breathing-leak", timed(10)), expect: "holds" },
    { name: "held 9 s", given: (ready) => answered(ready, "breathing-leak", timed(9)), expect: "stops" },
    { name: "failed without a number", given: (ready) => answered(ready, "breathing-leak", bad), expect: "stops" },
    {
      name: "300 mL/min where the site allows 300 without low flow",
      given: (ready) =>
        withValues(answered(ready, "breathing-leak", reading(300, "mL/min")), "breathing-leak", {
          noLowFlowUpTo: quantity(300, "mL/min"),
        }),
      expect: "limits",
    },
    {
      name: "301 mL/min where the site allows 300 without low flow",
      given: (ready) =>
        withValues(answered(ready, "breathing-leak", reading(301, "mL/min")), "breathing-leak", {
          noLowFlowUpTo: quantity(300, "mL/min"),
        }),
      expect: "stops",
    },
    { name: "not tested", given: (ready) => unanswered(ready, "breathing-leak"), expect: "owed" },
  ],
};
