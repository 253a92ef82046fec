import type { Rule } from "@/lib/domain/rule";
import { answered, bad, good, withWorkstation } from "@/lib/domain/rules/examples";
import { failures } from "@/lib/domain/rules/failing";

/** Sedation breathes from the auxiliary flowmeter, not from the circuit. */
export const auxiliaryOxygen: Rule = {
  id: "auxiliary-oxygen",
  inBrief: "auxiliary oxygen",
  what: "The auxiliary oxygen flowmeter works; without it no sedation cases",
  severity: "limits",
  citation: "common practice, no source",
  items: ["auxiliary-oxygen"],
  settings: {},
  allowedBy: ["charge-provider"],
  use: {
    first: "Put the separate oxygen cylinder with its flowmeter beside the table.",
    differently: "No sedation cases here.",
    longest: "3-days",
  },
  onlyOfFailing: true,
  judge: (context) =>
    failures(context, "auxiliary-oxygen", "Auxiliary oxygen flowmeter absent or failed: no sedation cases", {
      takesAway: ["no-sedation"],
    }),
  examples: [
    { name: "works", given: (ready) => answered(ready, "auxiliary-oxygen", good), expect: "holds" },
    { name: "absent or failed", given: (ready) => answered(ready, "auxiliary-oxygen", bad), expect: "limits" },
    {
      name: "works, and is quarantined",
      given: (ready) =>
        withWorkstation(answered(ready, "auxiliary-oxygen", good), ({ id }) => ({
          quarantine: [{ subject: { kind: "workstation", id }, item: "auxiliary-oxygen", since: ready.now }],
        })),
      expect: "limits",
    },
  ],
};
