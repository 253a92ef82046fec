import type { Evidence } from "@/lib/domain/evidence";
import type { Rule } from "@/lib/domain/rule";
import { minutesLater, withRoom } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import { caseHasBegun, withoutConfirmation } from "@/lib/domain/rules/provider-mark";

/** A case that began without the provider's mark: nobody looked twice, or nobody said so. It is countersigned while it is fresh. */
export const countersign: Rule = {
  id: "countersign",
  inBrief: "countersign owed",
  what: "A provider's mark that was missing when the first case began is countersigned",
  severity: "due",
  citation: "ASA pre-anesthesia checkout 2008, items 14 and 15: provider and technician (from memory)",
  items: [],
  settings: {},
  allowedBy: [],
  judge: (context) => {
    const { equipment, provider } = context.marks();
    if (equipment === null || provider !== null || !caseHasBegun(context)) return [];
    const text = "Provider's check missing at the first case: countersign";
    return [{ subject: workstationSubject(context), text }];
  },
  examples: [
    { name: "both marks given", given: (ready) => atFirstCase(ready, 0), expect: "holds" },
    { name: "before the first case", given: (ready) => atFirstCase(withoutConfirmation(ready), 30), expect: "holds" },
    { name: "the first case begun", given: (ready) => atFirstCase(withoutConfirmation(ready), 0), expect: "due" },
  ],
};

const atFirstCase = (ready: Evidence, minutes: number): Evidence =>
  withRoom(ready, { list: { firstCase: minutesLater(ready, minutes), end: null, needs: [], setUpMinutes: 0 } });
