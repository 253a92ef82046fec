import type { Evidence } from "@/lib/domain/evidence";
import type { OwedByProcedure } from "@/lib/domain/evidence-records";
import type { FindingDraft, Rule, RuleContext } from "@/lib/domain/rule";
import { minutesLater, withValues } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import { procedureChange } from "@/lib/domain/rules/policy/procedure-change";
import { valuesOf } from "@/lib/domain/rules/settings";
import { itemsInWords } from "@/lib/domain/wording";
import { instantOf } from "@/lib/units/time";

/** The check of today was begun before a new version came into force: what that one asks beyond it is told. */
export const procedureChanged: Rule = {
  id: "procedure-changed",
  inBrief: "procedure changed",
  what: "What a new version of the procedure asks beyond a check that was begun before it is told",
  severity: "note",
  citation: "common practice, no source",
  items: [],
  settings: {},
  allowedBy: [],
  judge: (context) => {
    const { procedure, workstation } = context.evidence;
    const { valid } = context.fullCheck();
    if (procedure === null || valid === null || valuesOf(procedureChange, context.evidence).owedAtOnce) return [];
    const begun = instantOf(valid.startedAt);
    const beyond = procedure.owes.filter(
      (one) => one.since !== undefined && instantOf(one.since) > begun && isOpen(one, context),
    );
    if (beyond.length === 0) return [];
    const text = `Checked before version ${procedure.version}, which also asks: ${itemsInWords(beyond, workstation)}. Owed with the next check`;
    return [{ subject: workstationSubject(context), text, measured: valid.startedAt } satisfies FindingDraft];
  },
  examples: [
    { name: "the procedure did not change", given: (ready) => ready, expect: "holds" },
    { name: "a new version asks more since after the check", given: (ready) => asksMore(ready), expect: "note" },
    {
      name: "the same, where the site owes it at once",
      given: (ready) => withValues(asksMore(ready), "procedure-change", { owedAtOnce: true }),
      expect: "holds",
    },
  ],
};

const isOpen = ({ item, subject }: OwedByProcedure, context: RuleContext): boolean => {
  const { state } = context.standing(item, subject);
  return state !== "passing" && state !== "failing";
};

/** A version in force since two minutes ago asks for the service label, too. */
function asksMore(ready: Evidence): Evidence {
  const { procedure, workstation } = ready;
  if (procedure === null || workstation === null) return ready;
  const more: OwedByProcedure = {
    item: "label",
    subject: { kind: "workstation", id: workstation.id },
    since: minutesLater(ready, -2),
  };
  return { ...ready, procedure: { ...procedure, version: procedure.version + 1, owes: [...procedure.owes, more] } };
}
