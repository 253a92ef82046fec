import type { ItemId } from "@/lib/domain/items";
import type { Rule, RuleExample } from "@/lib/domain/rule";
import { answered, bad, good } from "@/lib/domain/rules/examples";
import { failingOf, noted } from "@/lib/domain/rules/failing";
import { subjectName } from "@/lib/domain/wording";

/** What a rule about items that either work or fail says, by item. */
type Says = Partial<Record<ItemId, string>>;

/** A rule whose items stop the workstation when they fail, and about which there is nothing to measure. */
export function stoppingItems(rule: {
  readonly id: string;
  readonly inBrief: string;
  readonly what: string;
  readonly citation: string;
  readonly says: Says;
}): Rule {
  const { id, inBrief, what, citation, says } = rule;
  const items = Object.keys(says) as ItemId[];
  return {
    id,
    inBrief,
    what,
    severity: "stops",
    citation,
    items,
    settings: {},
    allowedBy: [],
    onlyOfFailing: true,
    judge: (context) =>
      items.flatMap((item) =>
        failingOf(context, item).map(({ subject, observation: { answer, observedAt } }) => {
          const name = subjectName(subject, context.evidence.workstation);
          const text = `${says[item]}${name ? `, ${name}` : ""}${noted(answer)}`;
          return { subject, text, items: [item], since: observedAt };
        }),
      ),
    examples: items.flatMap((item) => bothSides(item, says[item] ?? item)),
  };
}

const bothSides = (item: ItemId, fails: string): RuleExample[] => [
  { name: `${item} answered well`, given: (ready) => answered(ready, item, good), expect: "holds" },
  {
    name: fails.charAt(0).toLowerCase() + fails.slice(1),
    given: (ready) => answered(ready, item, bad),
    expect: "stops",
  },
];
