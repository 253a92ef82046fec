import type { Evidence } from "@/lib/domain/evidence";
import type { Rule } from "@/lib/domain/rule";
import { endOf } from "@/lib/domain/rules/dates";
import { withWorkstation } from "@/lib/domain/rules/examples";
import { lowerFirst, saidDate, subjectName } from "@/lib/domain/wording";
import { localDate } from "@/lib/units/time";

/** Labels of some countries carry an expiry of the gas itself; past it the cylinder is exchanged at the next round. */
export const cylinderExpiry: Rule = {
  id: "cylinder-expiry",
  inBrief: "cylinder expired",
  what: "A cylinder whose label has expired is changed",
  severity: "due",
  citation: "UK cylinder labels carry an expiry (from memory, low confidence); common practice, no source",
  items: [],
  settings: {},
  allowedBy: [],
  judge: (context) => {
    const { workstation, facility } = context.evidence;
    return (workstation?.fitted.cylinders ?? []).flatMap(({ id, expiry }) => {
      if (expiry === null || !context.hasCome(endOf(facility.timeZone, expiry))) return [];
      const subject = { kind: "cylinder", id } as const;
      const name = lowerFirst(subjectName(subject, workstation));
      return [{ subject, text: `Change ${name}: label expired ${saidDate(expiry)}`, measured: expiry }];
    });
  },
  examples: [
    { name: "on its last day", given: (ready) => expires(ready, "2026-03-03"), expect: "holds" },
    { name: "the day after", given: (ready) => expires(ready, "2026-03-02"), expect: "due" },
  ],
};

/** The ready room stands at 3 March 2026. */
const expires = (ready: Evidence, date: string): Evidence =>
  withWorkstation(ready, ({ fitted }) => ({
    fitted: {
      ...fitted,
      cylinders: fitted.cylinders.map((one, place) => (place === 0 ? { ...one, expiry: localDate(date) } : one)),
    },
  }));
