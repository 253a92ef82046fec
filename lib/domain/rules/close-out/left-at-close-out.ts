import type { ItemId } from "@/lib/domain/items";
import type { Rule } from "@/lib/domain/rule";
import { answered, bad, good } from "@/lib/domain/rules/examples";
import { failures } from "@/lib/domain/rules/failing";

const SAYS: Readonly<Partial<Record<ItemId, string>>> = {
  "close-flows": "Left at close-out with a flow that cannot be shut",
  "close-vaporizers": "Left at close-out not filled or not off",
  "close-cylinder": "Left at close-out with its valve not shut",
  "close-suction": "Suction left at close-out not emptied",
};
const ITEMS_LEFT = Object.keys(SAYS) as ItemId[];

/** What the close-out round could not put right is work before the morning; whether the room may start, the morning's own check says. */
export const leftAtCloseOut: Rule = {
  id: "left-at-close-out",
  inBrief: "left from close-out",
  what: "What the close-out round left undone is put right before the next list",
  severity: "due",
  citation: "common practice, no source",
  items: ITEMS_LEFT,
  settings: {},
  allowedBy: [],
  onlyOfFailing: true,
  judge: (context) => ITEMS_LEFT.flatMap((item) => failures(context, item, SAYS[item] ?? "Left at close-out")),
  examples: [
    { name: "flows shut", given: (ready) => answered(ready, "close-flows", good), expect: "holds" },
    { name: "a flow cannot be shut", given: (ready) => answered(ready, "close-flows", bad), expect: "due" },
    { name: "suction not emptied", given: (ready) => answered(ready, "close-suction", bad), expect: "due" },
  ],
};
