import type { Rule } from "@/lib/domain/rule";
import { minutesLater, withRoom } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import { instantOf } from "@/lib/units/time";

/** Two people look, the second one being who gives the anesthetic; it is owed until the first case, and countersigned after. */
export const providerMarkOwed: Rule = {
  id: "provider-mark-owed",
  what: "The provider adds the own check before the first case",
  severity: "due",
  citation: "ASA pre-anesthesia checkout 2008, items 14 and 15: provider and technician (from memory)",
  items: [],
  settings: {},
  allowedBy: [],
  judge: (context) => {
    const { room } = context.evidence;
    const { equipment, provider } = context.marks();
    if (room === null || room.occupancy.state === "closed" || equipment === null || provider !== null) return [];
    const firstCase = room.list?.firstCase ?? null;
    if (firstCase !== null) context.changesAt(instantOf(firstCase));
    const begun = room.occupancy.state === "in-use" || (firstCase !== null && context.now >= instantOf(firstCase));
    const subject = workstationSubject(context);
    if (begun) return [{ subject, severity: "note", text: "Provider's check missing at the first case: countersign" }];
    return [{ subject, text: "Provider's check still owed" }];
  },
  examples: [
    { name: "both marks given", given: (ready) => ready, expect: "holds" },
    {
      name: "the technician's mark alone, before the first case",
      given: (ready) => unconfirmed(ready, 30),
      expect: "due",
    },
    {
      name: "the technician's mark alone, the first case begun",
      given: (ready) => unconfirmed(ready, 0),
      expect: "note",
    },
  ],
};

function unconfirmed(ready: Parameters<typeof withRoom>[0], minutesToFirstCase: number) {
  const checks = ready.checks.map((check) => ({
    ...check,
    signed: check.signed.filter(({ meaning }) => meaning !== "confirmed"),
  }));
  const firstCase = minutesLater(ready, minutesToFirstCase);
  return withRoom({ ...ready, checks }, { list: { firstCase, end: null, needs: [], setUpMinutes: 0 } });
}
