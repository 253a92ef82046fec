import { itemOf } from "@/lib/domain/items";
import { ownQuestion } from "@/lib/domain/own-question";
import type { FindingDraft, Rule, RuleContext, Stands } from "@/lib/domain/rule";
import { answered, bad, cylinderOf, gauge } from "@/lib/domain/rules/examples";
import { noted } from "@/lib/domain/rules/failing";
import { subjectName } from "@/lib/domain/wording";

/** What fails and has no rule of its own stops: a department that asks for something wants it to matter. */
export const failedItem: Rule = {
  id: "failed-item",
  inBrief: "an item failed",
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
      .filter(({ owner }) => owner === null)
      .flatMap((stands) => failed(stands, context)),
  examples: [
    {
      name: "a gauge for which no rule has a limit reads",
      given: (ready) => answered(ready, "cylinder-gauge", gauge(745), cylinderOf(ready, "nitrous-oxide")),
      expect: "holds",
    },
    {
      name: "a gauge for which no rule has a limit fails",
      given: (ready) => answered(ready, "cylinder-gauge", bad, cylinderOf(ready, "nitrous-oxide")),
      expect: "stops",
    },
    { name: "suction has a rule of its own", given: (ready) => answered(ready, "suction", bad), expect: "holds" },
  ],
};

function failed({ item, subject, standing }: Stands, context: RuleContext): FindingDraft[] {
  if (standing.state !== "failing") return [];
  const about = subjectName(subject, context.evidence.workstation);
  const { answer, observedAt } = standing.observation;
  const text = `${itemOf(item).name} failed${about ? `, ${about}` : ""}${noted(answer)}`;
  const due = ownQuestion(item, context.evidence)?.failing === "due";
  return [{ subject, text, items: [item], since: observedAt, ...(due ? { severity: "due" as const } : {}) }];
}
