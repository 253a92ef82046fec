import type { Rule } from "@/lib/domain/rule";
import { withRoom } from "@/lib/domain/rules/examples";
import { listed } from "@/lib/domain/wording";

/** What runs out in the middle of a list is fetched before it. One round restocks a room, so it is one piece of work. */
export const suppliesUnderPar: Rule = {
  id: "supplies-under-par",
  inBrief: "supplies under par",
  what: "What is kept in the room is at its par level",
  severity: "due",
  citation: "common practice, no source",
  items: [],
  settings: {},
  allowedBy: [],
  judge: ({ evidence: { room } }) => {
    const under = room?.supplies?.filter(({ count, par }) => count < par) ?? [];
    if (room === null || under.length === 0) return [];
    const names = under.map(({ name, count, par }) => `${name} ${count} of ${par}`).sort();
    return [{ subject: { kind: "room", id: room.id }, text: `Restock: ${listed(names)}` }];
  },
  examples: [
    {
      name: "at par",
      given: (ready) => withRoom(ready, { supplies: [{ name: "circuits", count: 4, par: 4 }] }),
      expect: "holds",
    },
    {
      name: "one under par",
      given: (ready) => withRoom(ready, { supplies: [{ name: "circuits", count: 3, par: 4 }] }),
      expect: "due",
    },
  ],
};
