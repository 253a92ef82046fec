import type { Rule } from "@/lib/domain/rule";
import { answered, bad, good } from "@/lib/domain/rules/examples";
import { failures } from "@/lib/domain/rules/failing";

/** The label says when the machine was serviced and when it is due, to somebody who stands before it without this board. */
export const labelMissing: Rule = {
  id: "label-missing",
  inBrief: "label missing",
  what: "The service label and the stickers are on the workstation and can be read",
  severity: "due",
  citation: "ANZCA PS31, 2014: a visible label with the date of the last service and of the next",
  items: ["label"],
  settings: {},
  allowedBy: [],
  onlyOfFailing: true,
  judge: (context) => failures(context, "label", "Label or sticker missing"),
  examples: [
    { name: "label there", given: (ready) => answered(ready, "label", good), expect: "holds" },
    { name: "label missing", given: (ready) => answered(ready, "label", bad), expect: "due" },
  ],
};
