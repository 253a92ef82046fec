import type { Rule } from "@/lib/domain/rule";
import { answered, reading, unanswered, withRoom } from "@/lib/domain/rules/examples";
import { failingOf } from "@/lib/domain/rules/failing";
import { unlessAnalyzer } from "@/lib/domain/rules/oxygen-sensor/free-standing";
import { said } from "@/lib/domain/wording";
import { isAbove, type Quantity, quantity } from "@/lib/units/quantity";

const settings = {
  over: {
    default: quantity(90, "%") as Quantity,
    citation: "FDA anesthesia apparatus checkout 1993, step 9: over 90 % after flush",
  },
};

/** Proves the sensor at its other end, and that what comes out of the oxygen supply is oxygen. */
export const oxygenAfterFlush: Rule<typeof settings> = {
  id: "oxygen-after-flush",
  inBrief: "oxygen sensor",
  what: "After an oxygen flush the sensor reads oxygen",
  severity: "stops",
  citation: settings.over.citation,
  items: ["oxygen-after-flush"],
  settings,
  allowedBy: [],
  onlyOfFailing: true,
  assess: (answer, _about, { over }) => {
    if (answer.kind === "pass") return answer.passed ? "pass" : "fail";
    const above = answer.kind === "number" ? isAbove(answer.reading, over) : null;
    return above === null ? "uncounted" : above ? "pass" : "fail";
  },
  shows: (_about, { over }) => ({ over }),
  judge: (context, { over }) =>
    failingOf(context, "oxygen-after-flush").map(({ subject, observation: { answer, observedAt } }) => {
      const measured = answer.kind === "number" ? answer.reading : null;
      const text = measured
        ? `Oxygen sensor reads ${said(measured)} after flush (over ${said(over)})`
        : "Oxygen sensor fails after flush";
      return unlessAnalyzer(context, { subject, text, measured, limit: over, since: observedAt });
    }),
  examples: [
    { name: "90.1 %", given: (ready) => answered(ready, "oxygen-after-flush", reading(90.1, "%")), expect: "holds" },
    { name: "90.0 %", given: (ready) => answered(ready, "oxygen-after-flush", reading(90, "%")), expect: "stops" },
    {
      name: "the same with a free-standing analyzer in the room",
      given: (ready) =>
        withRoom(answered(ready, "oxygen-after-flush", reading(90, "%")), { portable: ["oxygen-analyzer"] }),
      expect: "due",
    },
    { name: "not read", given: (ready) => unanswered(ready, "oxygen-after-flush"), expect: "owed" },
  ],
};
