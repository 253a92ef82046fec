import type { Rule } from "@/lib/domain/rule";
import { answered, bad, chosen, good } from "@/lib/domain/rules/examples";
import { failures } from "@/lib/domain/rules/failing";

/** How the workstation was found before anybody touched it. It is told; what follows for the absorbent, absorbent-dry says. */
export const asFound: Rule = {
  id: "as-found",
  inBrief: "found with gas on",
  what: "A workstation found with gas flowing in the morning is told",
  severity: "note",
  citation:
    "APSF consensus 2005 on desiccated absorbent (from memory): gas left on unattended; the remark is common practice",
  items: ["found-power", "found-gas"],
  settings: {},
  allowedBy: [],
  onlyOfFailing: true,
  assess: (answer) => (answer.kind === "pass" && !answer.passed ? "fail" : "pass"),
  judge: (context) => failures(context, "found-gas", "Found with gas flowing"),
  examples: [
    { name: "no gas flowing", given: (ready) => answered(ready, "found-gas", good), expect: "holds" },
    { name: "gas was flowing", given: (ready) => answered(ready, "found-gas", bad), expect: "note" },
    { name: "found running", given: (ready) => answered(ready, "found-power", chosen("running")), expect: "holds" },
  ],
};
