import type { Evidence } from "@/lib/domain/evidence";
import type { Rule } from "@/lib/domain/rule";
import { minutesLater, withRoom } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import { caseHasBegun, withoutConfirmation } from "@/lib/domain/rules/provider-mark";

/** Two people look, the second one being who gives the anesthetic; it is owed until the first case, and countersigned after. */
export const providerMarkOwed: Rule = {
  id: "provider-mark-owed",
  inBrief: "provider to check",
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
    return caseHasBegun(context) ? [] : [{ subject: workstationSubject(context), text: "Provider's check still owed" }];
  },
  examples: [
    { name: "both marks given", given: (ready) => ready, expect: "holds" },
    {
      name: "the technician's mark alone, before the first case",
      given: (ready) => firstCaseIn(ready, 30),
      expect: "due",
    },
    {
      name: "the technician's mark alone, the first case begun",
      given: (ready) => firstCaseIn(ready, 0),
      expect: "holds",
    },
  ],
};

const firstCaseIn = (ready: Evidence, minutes: number): Evidence =>
  withRoom(withoutConfirmation(ready), {
    list: { firstCase: minutesLater(ready, minutes), end: null, needs: [], setUpMinutes: 0 },
  });
