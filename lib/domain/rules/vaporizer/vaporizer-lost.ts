import type { FittedVaporizer } from "@/lib/domain/evidence";
import { type ItemId, type Subject, sameSubject } from "@/lib/domain/items";
import type { FindingDraft, Rule, RuleContext } from "@/lib/domain/rule";
import { endOf } from "@/lib/domain/rules/dates";
import { about, answered, bad, chosen, withWorkstation } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import { lowerFirst, saidDate, subjectName, upperFirst } from "@/lib/domain/wording";

const ITEMS: readonly { readonly item: ItemId; readonly why: string }[] = [
  { item: "vaporizer-seated", why: "not seated and locked" },
  { item: "filler-closed", why: "filler open" },
  { item: "vaporizer-fill", why: "empty" },
];

/** One vaporizer of two lost takes its agent away; the last one lost leaves anesthesia by vein. */
export const vaporizerLost: Rule = {
  id: "vaporizer-lost",
  what: "Which agents can be given: a vaporizer that is unseated, open, empty, quarantined or past its calibration cannot",
  severity: "limits",
  citation: "common practice, no source; interlock and seating from ISO 80601-2-13 (from memory)",
  items: ["vaporizer-seated", "filler-closed"],
  settings: {},
  allowedBy: ["charge-provider"],
  judge: (context) => {
    const { workstation } = context.evidence;
    if (workstation === null || workstation.model.mounts.length === 0) return [];
    const vaporizers = workstation.fitted.vaporizers;
    if (vaporizers.length === 0) return [noneLeft(context, "No vaporizer fitted")];
    const lost = vaporizers.flatMap((vaporizer) => lostBecause(vaporizer, context));
    if (lost.length < vaporizers.length) return lost;
    return lost.map((draft) => ({
      ...draft,
      text: `${draft.text}; no usable vaporizer is left`,
      takesAway: ["intravenous-only"],
    }));
  },
  examples: [
    {
      name: "one of two not seated",
      given: (ready) => answered(ready, "vaporizer-seated", bad, about(firstOf(ready.workstation?.fitted.vaporizers))),
      expect: "limits",
    },
    {
      name: "one filler open",
      given: (ready) => answered(ready, "filler-closed", bad, about(firstOf(ready.workstation?.fitted.vaporizers))),
      expect: "limits",
    },
    {
      name: "every vaporizer empty",
      given: (ready) => answered(ready, "vaporizer-fill", chosen("empty")),
      expect: "limits",
    },
    { name: "all full", given: (ready) => answered(ready, "vaporizer-fill", chosen("full")), expect: "holds" },
    {
      name: "no vaporizer fitted",
      given: (ready) => withWorkstation(ready, ({ fitted }) => ({ fitted: { ...fitted, vaporizers: [] } })),
      expect: "limits",
    },
  ],
};

const firstOf = (parts: readonly { readonly id: string }[] | undefined): string => parts?.[0]?.id ?? "";

function noneLeft(context: RuleContext, text: string): FindingDraft {
  return { subject: workstationSubject(context), text, takesAway: ["intravenous-only"] };
}

function lostBecause(vaporizer: FittedVaporizer, context: RuleContext): FindingDraft[] {
  const subject: Subject = { kind: "vaporizer", id: vaporizer.id };
  const failed = ITEMS.filter(({ item }) => context.standing(item, subject).state === "failing");
  const reasons = [...failed.map(({ why }) => why), ...fromRecords(vaporizer, subject, context)];
  if (reasons.length === 0) return [];
  const name = subjectName(subject, context.evidence.workstation);
  const text = upperFirst(`no ${lowerFirst(name)}: ${reasons.join(", ")}`);
  return [{ subject, text, items: failed.map(({ item }) => item) }];
}

function fromRecords({ calibration }: FittedVaporizer, subject: Subject, context: RuleContext): string[] {
  const { facility, workstation } = context.evidence;
  const reasons: string[] = [];
  if (workstation?.quarantine.some((one) => sameSubject(one.subject, subject))) reasons.push("quarantined");
  if (calibration !== null) {
    const ends = endOf(facility.timeZone, calibration.windowTo);
    if (context.now < ends) context.changesAt(ends);
    else reasons.push(`past its calibration, window ended ${saidDate(calibration.windowTo)}`);
  }
  return reasons;
}
