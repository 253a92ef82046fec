import type { Evidence } from "@/lib/domain/evidence";
import type { Rule } from "@/lib/domain/rule";
import { endOf } from "@/lib/domain/rules/dates";
import { withWorkstation } from "@/lib/domain/rules/examples";
import { lowerFirst, saidDate, subjectName } from "@/lib/domain/wording";
import { localDate } from "@/lib/units/time";

/** A cylinder past its retest may be used up and not filled again: word for whoever sends it back, and no stop. */
export const cylinderRetest: Rule = {
  id: "cylinder-retest",
  inBrief: "retest date passed",
  what: "A cylinder past its retest date is used up and not refilled",
  severity: "note",
  citation: "49 CFR 173.301(a)(6) and 180.205(c) (from memory)",
  items: [],
  settings: {},
  allowedBy: [],
  judge: (context) => {
    const { workstation, facility } = context.evidence;
    return (workstation?.fitted.cylinders ?? []).flatMap(({ id, retestDue }) => {
      if (retestDue === null || !context.hasCome(endOf(facility.timeZone, retestDue))) return [];
      const subject = { kind: "cylinder", id } as const;
      const name = lowerFirst(subjectName(subject, workstation));
      return [
        { subject, text: `Retest date past, ${name}: ${saidDate(retestDue)}; do not refill`, measured: retestDue },
      ];
    });
  },
  examples: [
    { name: "on its last day", given: (ready) => dated(ready, "2026-03-03"), expect: "holds" },
    { name: "the day after", given: (ready) => dated(ready, "2026-03-02"), expect: "note" },
  ],
};

/** The ready room stands at 3 March 2026. */
const dated = (ready: Evidence, date: string): Evidence =>
  withWorkstation(ready, ({ fitted }) => ({
    fitted: {
      ...fitted,
      cylinders: fitted.cylinders.map((one, place) => (place === 0 ? { ...one, retestDue: localDate(date) } : one)),
    },
  }));
