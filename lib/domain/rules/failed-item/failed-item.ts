import { ITEMS } from "@/lib/domain/items";
import type { FindingDraft, Rule, RuleContext, Stands } from "@/lib/domain/rule";
import { answered, bad, good } from "@/lib/domain/rules/examples";
import { noted } from "@/lib/domain/rules/failing";
import { subjectName } from "@/lib/domain/wording";

/** What fails and has no rule of its own stops: a department that asks for something wants it to matter. */
export const failedItem: Rule = {
  id: "failed-item",
  what: "Every other item that failed stops the workstation until it passes",
  severity: "stops",
  citation:
    "FDA anesthesia apparatus checkout 1993 and ASA 2008: every item is part of readiness; the default is common practice",
  items: [],
  settings: {},
  allowedBy: [],
  judge: (context) =>
    context
      .failing()
      .filter(({ named }) => !named)
      .flatMap((stands) => failed(stands, context)),
  examples: [
    { name: "ventilator works", given: (ready) => answered(ready, "ventilator", good), expect: "holds" },
    { name: "ventilator fails", given: (ready) => answered(ready, "ventilator", bad), expect: "stops" },
    { name: "a yoke leaks", given: (ready) => answered(ready, "yoke-leak", bad), expect: "stops" },
    { name: "suction has a rule of its own", given: (ready) => answered(ready, "suction", bad), expect: "holds" },
  ],
};

function failed({ item, subject, standing }: Stands, context: RuleContext): FindingDraft[] {
  if (standing.state !== "failing") return [];
  const about = subjectName(subject, context.evidence.workstation);
  const { answer, observedAt } = standing.observation;
  const text = `${ITEMS[item].name} failed${about ? `, ${about}` : ""}${noted(answer)}`;
  return [{ subject, text, items: [item], since: observedAt }];
}
