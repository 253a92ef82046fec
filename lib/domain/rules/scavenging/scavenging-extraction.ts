import type { Rule } from "@/lib/domain/rule";
import { answered, bad, good } from "@/lib/domain/rules/examples";
import { failures } from "@/lib/domain/rules/failing";

/** Weak extraction is a hazard for the staff, not for the patient: the room runs without volatile and without nitrous oxide. */
export const scavengingExtraction: Rule = {
  id: "scavenging-extraction",
  inBrief: "gas extraction",
  what: "Waste gas is extracted; without it no volatile and no nitrous oxide",
  severity: "limits",
  citation: "NIOSH criteria document 77-140; FDA anesthesia apparatus checkout 1993, step 8",
  items: ["scavenging-extraction"],
  settings: {},
  allowedBy: ["charge-provider"],
  use: {
    first: "Open the regulator and check the hose once more.",
    differently: "No volatile agent and no nitrous oxide; intravenous anesthesia only.",
    longest: "1-day",
  },
  onlyOfFailing: true,
  judge: (context) =>
    failures(context, "scavenging-extraction", "Scavenging extraction weak or absent: no volatile, no nitrous oxide", {
      takesAway: ["no-volatile", "no-nitrous-oxide"],
    }),
  examples: [
    { name: "extracts", given: (ready) => answered(ready, "scavenging-extraction", good), expect: "holds" },
    { name: "weak", given: (ready) => answered(ready, "scavenging-extraction", bad), expect: "limits" },
  ],
};
