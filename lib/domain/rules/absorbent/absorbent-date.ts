import type { Evidence } from "@/lib/domain/evidence";
import type { Rule } from "@/lib/domain/rule";
import { withWorkstation } from "@/lib/domain/rules/examples";
import { itemlessName } from "@/lib/domain/wording";

/** A charge without a date may be any age: it is changed at the next quiet moment, and dated. */
export const absorbentDate: Rule = {
  id: "absorbent-date",
  inBrief: "absorbent undated",
  what: "It is known when the absorbent was changed",
  severity: "due",
  citation: "common practice, no source: date the canister when it is changed",
  items: [],
  settings: {},
  allowedBy: [],
  judge: ({ evidence: { workstation } }) =>
    (workstation?.fitted.absorbent ?? [])
      .filter(({ dateKnown }) => dateKnown === false)
      .map(({ id }) => {
        const subject = { kind: "absorbent", id } as const;
        return { subject, text: `${itemlessName(subject, workstation)} has no date: change it and date it` };
      }),
  examples: [
    { name: "dated", given: (ready) => ready, expect: "holds" },
    { name: "nobody knows since when", given: (ready) => undated(ready), expect: "due" },
  ],
};

const undated = (ready: Evidence): Evidence =>
  withWorkstation(ready, ({ fitted }) => ({
    fitted: { ...fitted, absorbent: fitted.absorbent.map((one) => ({ ...one, dateKnown: false })) },
  }));
