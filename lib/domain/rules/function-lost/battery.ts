import type { Rule } from "@/lib/domain/rule";
import { answered, bad, good } from "@/lib/domain/rules/examples";
import { failures } from "@/lib/domain/rules/failing";

/** Without a battery a power failure stops the ventilator at once. */
export const battery: Rule = {
  id: "battery",
  inBrief: "backup battery",
  what: "The backup battery is charged; without it stay on mains",
  severity: "limits",
  citation: "ASA pre-anesthesia checkout 2008, item 3; the limit is common practice, no source",
  items: ["battery"],
  settings: {},
  allowedBy: ["charge-provider"],
  use: {
    first: "Look that the plug sits in an outlet on emergency power.",
    differently: "Stay on mains: do not move the workstation during a case.",
    longest: "10-days",
  },
  onlyOfFailing: true,
  judge: (context) =>
    failures(context, "battery", "Backup battery not charged or failed: stay on mains", {
      takesAway: ["stay-on-mains"],
    }),
  examples: [
    { name: "works", given: (ready) => answered(ready, "battery", good), expect: "holds" },
    { name: "absent or failed", given: (ready) => answered(ready, "battery", bad), expect: "limits" },
  ],
};
