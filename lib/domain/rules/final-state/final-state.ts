import type { Rule } from "@/lib/domain/rule";
import { answered, bad, good, unanswered } from "@/lib/domain/rules/examples";
import { failures } from "@/lib/domain/rules/failing";

/** A workstation left as the tests left it gives agent, pressure or no gas to the first patient. */
export const finalState: Rule = {
  id: "final-state",
  inBrief: "not left ready",
  what: "After the check: vaporizers off, APL valve open, bag selected, flows off, hose reconnected",
  severity: "stops",
  citation: "FDA anesthesia apparatus checkout 1993, step 14 (detail from memory)",
  items: ["final-state"],
  settings: {},
  allowedBy: [],
  onlyOfFailing: true,
  judge: (context) =>
    failures(context, "final-state", "Final state wrong: vaporizers off, APL open, bag selected, flows off"),
  examples: [
    { name: "as it should be left", given: (ready) => answered(ready, "final-state", good), expect: "holds" },
    { name: "something left on", given: (ready) => answered(ready, "final-state", bad), expect: "stops" },
    { name: "not set", given: (ready) => unanswered(ready, "final-state"), expect: "owed" },
  ],
};
