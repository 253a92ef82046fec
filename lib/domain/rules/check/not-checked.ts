import type { Owed } from "@/lib/domain/judgement";
import type { FindingDraft, Rule, RuleContext } from "@/lib/domain/rule";
import { unanswered, unchecked } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import { itemsInWords } from "@/lib/domain/wording";

const isUnchecked = ({ because }: Owed): boolean =>
  because === "not-checked" || because === "expired" || because === "incomplete";

/**
 * Unchecked is not failed: what nobody has looked at today is to be checked, and says nothing against the machine.
 * A room for which no procedure is in force cannot be ready either: nothing would ever be asked of it.
 */
export const notChecked: Rule = {
  id: "not-checked",
  inBrief: "not checked yet",
  what: "The whole check of this check day is done and signed",
  severity: "owed",
  citation: "ASA pre-anesthesia checkout 2008; Association of Anaesthetists 2012: checked daily and documented",
  items: [],
  settings: {},
  allowedBy: [],
  always: true,
  judge: (context) => {
    const { procedure, workstation } = context.evidence;
    const subject = workstationSubject(context);
    if (workstation === null) return [];
    if (procedure === null || procedure.owes.length === 0) {
      return [{ subject, text: "No daily check is in force here", measured: null, limit: "a procedure" }];
    }
    const all = context.owed();
    const owed = all.every(isUnchecked) ? all : all.filter(isUnchecked);
    if (context.fullCheck().valid === null) return [{ ...unsigned(context), subject, items: itemsOf(owed) }];
    return owed.length === 0 ? [] : [{ ...incomplete(owed, context), subject, items: itemsOf(owed) }];
  },
  examples: [
    { name: "checked and signed", given: (ready) => ready, expect: "holds" },
    { name: "nobody has looked yet", given: unchecked, expect: "owed" },
    { name: "one item not answered", given: (ready) => unanswered(ready, "apl"), expect: "owed" },
    {
      name: "answered and not signed",
      given: (ready) => ({ ...ready, checks: ready.checks.map((check) => ({ ...check, signed: [] })) }),
      expect: "owed",
    },
    { name: "no procedure in force", given: (ready) => ({ ...ready, procedure: null }), expect: "owed" },
  ],
};

const itemsOf = (owed: readonly Owed[]) => [...new Set(owed.map(({ item }) => item))];

function unsigned(context: RuleContext): Pick<FindingDraft, "text" | "measured" | "limit"> {
  const { last, begun } = context.fullCheck();
  const limit = "a signed check of this check day";
  if (begun !== null) return { text: "Check begun, not signed yet", measured: "begun", limit };
  return last === null
    ? { text: "Not checked yet", measured: "none", limit }
    : { text: "Not checked yet today", measured: "expired", limit };
}

function incomplete(
  owed: readonly Owed[],
  { evidence }: RuleContext,
): Pick<FindingDraft, "text" | "measured" | "limit"> {
  return {
    text: `Check incomplete: ${itemsInWords(owed, evidence.workstation)}`,
    measured: `${owed.length} not answered`,
    limit: "every item",
  };
}
