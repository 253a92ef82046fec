import type { Rule } from "@/lib/domain/rule";
import { answered, bad, good, unanswered } from "@/lib/domain/rules/examples";
import { failures } from "@/lib/domain/rules/failing";

/** The self-inflating bag ventilates when the workstation cannot: without it no case begins. */
export const selfInflatingBag: Rule = {
  id: "self-inflating-bag",
  inBrief: "self-inflating bag",
  what: "A self-inflating bag that works without the workstation is in the room",
  severity: "stops",
  citation: "FDA anesthesia apparatus checkout 1993, step 1; ASA pre-anesthesia checkout 2008, item 1 (from memory)",
  items: ["self-inflating-bag"],
  settings: {},
  allowedBy: [],
  onlyOfFailing: true,
  judge: (context) => failures(context, "self-inflating-bag", "Self-inflating bag absent or failed"),
  examples: [
    { name: "present and working", given: (ready) => answered(ready, "self-inflating-bag", good), expect: "holds" },
    { name: "absent or failed", given: (ready) => answered(ready, "self-inflating-bag", bad), expect: "stops" },
    { name: "nobody looked", given: (ready) => unanswered(ready, "self-inflating-bag"), expect: "owed" },
  ],
};
