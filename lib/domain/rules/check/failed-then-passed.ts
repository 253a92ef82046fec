import { itemOf } from "@/lib/domain/items";
import type { Rule } from "@/lib/domain/rule";
import { answered, bad, good, minutesLater } from "@/lib/domain/rules/examples";
import { noted } from "@/lib/domain/rules/failing";
import { lowerFirst, subjectName } from "@/lib/domain/wording";
import { instantOf } from "@/lib/units/time";

/** Reseated and tested again is how most morning leaks end; the second person is told, because what came once may come back. */
export const failedThenPassed: Rule = {
  id: "failed-then-passed",
  inBrief: "failed, then passed",
  what: "What failed first and then passed on the same check day is told, with its cause",
  severity: "note",
  citation: "common practice, no source",
  items: [],
  settings: {},
  allowedBy: [],
  judge: (context) =>
    context.cleared().flatMap(({ item, subject, standing, cleared }) => {
      if (cleared === null || standing.state !== "passing") return [];
      const { from, to } = context.checkDay(instantOf(cleared.observedAt));
      if (context.now < from || context.now >= to) return [];
      context.changesAt(to);
      const name = subjectName(subject, context.evidence.workstation);
      const text = `${itemOf(item).name}${name ? ` (${lowerFirst(name)})` : ""} failed first, then passed${noted(standing.observation.answer)}`;
      return [{ subject, text, items: [item], measured: cleared.observedAt }];
    }),
  examples: [
    { name: "passed at once", given: (ready) => answered(ready, "breathing-leak", good), expect: "holds" },
    {
      name: "failed, canister reseated, passed",
      given: (ready) => {
        const failed = answered(ready, "breathing-leak", bad).observations.filter(
          ({ item }) => item === "breathing-leak",
        );
        const before = minutesLater(ready, -35);
        const passed = answered(ready, "breathing-leak", { ...good, note: "canister reseated" });
        const first = failed.map((one) => ({ ...one, id: `${one.id}-first`, observedAt: before, recordedAt: before }));
        return { ...passed, observations: [...passed.observations, ...first] };
      },
      expect: "note",
    },
  ],
};
