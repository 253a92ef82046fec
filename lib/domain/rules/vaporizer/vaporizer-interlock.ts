import type { Rule } from "@/lib/domain/rule";
import { answered, bad, good, unanswered } from "@/lib/domain/rules/examples";
import { failures } from "@/lib/domain/rules/failing";

export const vaporizerInterlock: Rule = {
  id: "vaporizer-interlock",
  inBrief: "vaporizer interlock",
  what: "Only one vaporizer can be on at a time",
  severity: "stops",
  citation: "ISO 80601-2-13: interlock (from memory)",
  items: ["vaporizer-interlock"],
  settings: {},
  allowedBy: [],
  onlyOfFailing: true,
  judge: (context) => failures(context, "vaporizer-interlock", "Vaporizer interlock lets two be on"),
  examples: [
    {
      name: "holds the second one shut",
      given: (ready) => answered(ready, "vaporizer-interlock", good),
      expect: "holds",
    },
    { name: "lets two be on", given: (ready) => answered(ready, "vaporizer-interlock", bad), expect: "stops" },
    { name: "not tried", given: (ready) => unanswered(ready, "vaporizer-interlock"), expect: "owed" },
  ],
};
