import type { Rule } from "@/lib/domain/rule";
import { answered, bad, good, unanswered } from "@/lib/domain/rules/examples";
import { failures } from "@/lib/domain/rules/failing";

/** The bag needs oxygen that does not come through the workstation: a cylinder, its regulator, and the key that opens it. */
export const separateOxygen: Rule = {
  id: "separate-oxygen",
  inBrief: "separate oxygen",
  what: "An oxygen cylinder away from the machine, with regulator and cylinder key, is in the room",
  severity: "stops",
  citation: "ASA pre-anesthesia checkout 2008, item 1 (from memory)",
  items: ["separate-oxygen", "cylinder-key"],
  settings: {},
  allowedBy: [],
  onlyOfFailing: true,
  judge: (context) => [
    ...failures(context, "separate-oxygen", "Separate oxygen cylinder or its regulator absent or failed"),
    ...failures(context, "cylinder-key", "Cylinder key absent"),
  ],
  examples: [
    {
      name: "cylinder and regulator ready",
      given: (ready) => answered(ready, "separate-oxygen", good),
      expect: "holds",
    },
    {
      name: "no cylinder away from the machine",
      given: (ready) => answered(ready, "separate-oxygen", bad),
      expect: "stops",
    },
    { name: "the key is missing", given: (ready) => answered(ready, "cylinder-key", bad), expect: "stops" },
    { name: "nobody looked for the key", given: (ready) => unanswered(ready, "cylinder-key"), expect: "owed" },
  ],
};
