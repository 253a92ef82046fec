import type { Evidence } from "@/lib/domain/evidence";
import type { Rule, RuleContext } from "@/lib/domain/rule";
import { answered, bad, good, reading, unanswered, withValues } from "@/lib/domain/rules/examples";
import { failingOf, noted, workstationSubject } from "@/lib/domain/rules/failing";
import { said } from "@/lib/domain/wording";
import { isBelow, type Quantity, quantity } from "@/lib/units/quantity";

const settings = {
  atLeast: {
    default: quantity(25, "%") as Quantity,
    citation: "ISO 80601-2-13 and ASTM F1850: at least 25 % oxygen with nitrous oxide (from memory)",
  },
  /** Whether use without nitrous oxide may be allowed once it is isolated, with a signature. */
  mayIsolate: { default: false, citation: "off; a site may allow it (no source)" },
};

/**
 * With nitrous oxide turned up and oxygen turned down, oxygen must follow or nitrous oxide must be held back. A site may let the
 * workstation run without nitrous oxide when somebody signed that it is isolated: pipeline hose off and its cylinder off the yoke.
 */
export const hypoxicGuard: Rule<typeof settings> = {
  id: "hypoxic-guard",
  inBrief: "hypoxic guard",
  what: "The hypoxic guard keeps oxygen in the mixture with nitrous oxide",
  severity: "stops",
  citation: settings.atLeast.citation,
  items: ["hypoxic-guard"],
  settings,
  allowedBy: ["charge-provider"],
  use: {
    first: "Take the nitrous oxide hose off the wall and its cylinder off the yoke, and sign it.",
    differently: "No nitrous oxide; oxygen and air only, with the oxygen monitor's alarm on.",
    longest: "3-days",
  },
  onlyOfFailing: true,
  assess: (answer, _about, { atLeast }) => {
    if (answer.kind === "pass") return answer.passed ? "pass" : "fail";
    const below = answer.kind === "number" ? isBelow(answer.reading, atLeast) : null;
    return below === null ? "uncounted" : below ? "fail" : "pass";
  },
  shows: (_about, { atLeast }) => ({ atLeast }),
  judge: (context, { atLeast, mayIsolate }) =>
    failingOf(context, "hypoxic-guard").map(({ subject, observation: { answer, observedAt } }) => {
      const measured = answer.kind === "number" ? answer.reading : null;
      const text = measured
        ? `Hypoxic guard lets oxygen fall to ${said(measured)} (at least ${said(atLeast)})`
        : `Hypoxic guard failed${noted(answer)}`;
      const draft = { subject, text, measured, limit: atLeast, since: observedAt };
      if (!mayIsolate || !isIsolated(context)) return draft;
      const isolated = `${text}; nitrous oxide isolated: no nitrous oxide`;
      return { ...draft, severity: "limits", text: isolated, takesAway: ["no-nitrous-oxide"] };
    }),
  examples: [
    { name: "25 % oxygen", given: (ready) => answered(ready, "hypoxic-guard", reading(25, "%")), expect: "holds" },
    { name: "24.9 % oxygen", given: (ready) => answered(ready, "hypoxic-guard", reading(24.9, "%")), expect: "stops" },
    { name: "works", given: (ready) => answered(ready, "hypoxic-guard", good), expect: "holds" },
    { name: "failed", given: (ready) => answered(ready, "hypoxic-guard", bad), expect: "stops" },
    { name: "not tried", given: (ready) => unanswered(ready, "hypoxic-guard"), expect: "owed" },
    { name: "failed, nitrous oxide isolated", given: (ready) => isolated(ready), expect: "stops" },
    {
      name: "failed, nitrous oxide isolated where the site allows it",
      given: (ready) => withValues(isolated(ready), "hypoxic-guard", { mayIsolate: true }),
      expect: "limits",
    },
    {
      name: "failed, not isolated where the site allows it",
      given: (ready) => withValues(answered(ready, "hypoxic-guard", bad), "hypoxic-guard", { mayIsolate: true }),
      expect: "stops",
    },
  ],
};

const isIsolated = (context: RuleContext): boolean =>
  context.standing("nitrous-oxide-isolated", workstationSubject(context)).state === "passing";

const isolated = (ready: Evidence): Evidence =>
  answered(answered(ready, "hypoxic-guard", bad), "nitrous-oxide-isolated", good);
