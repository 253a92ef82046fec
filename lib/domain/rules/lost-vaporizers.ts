import type { FittedVaporizer } from "@/lib/domain/evidence";
import { type ItemId, type Subject, sameSubject } from "@/lib/domain/items";
import type { RuleContext } from "@/lib/domain/rule";
import { endOf } from "@/lib/domain/rules/dates";
import { saidDate } from "@/lib/domain/wording";

/** What makes a vaporizer unusable until it is put right. */
const LOST_BY: readonly { readonly item: ItemId; readonly why: string }[] = [
  { item: "vaporizer-seated", why: "not seated and locked" },
  { item: "filler-closed", why: "filler open" },
  { item: "vaporizer-fill", why: "empty" },
];

export interface LostVaporizer {
  readonly subject: Subject;
  readonly why: string;
  readonly items: readonly ItemId[];
}

/** The fitted vaporizers that cannot be used now. */
export function lostVaporizers(context: RuleContext): LostVaporizer[] {
  const vaporizers = context.evidence.workstation?.fitted.vaporizers ?? [];
  return vaporizers.flatMap((vaporizer) => {
    const subject: Subject = { kind: "vaporizer", id: vaporizer.id };
    const failed = LOST_BY.filter(({ item }) => context.standing(item, subject).state === "failing");
    const reasons = [...failed.map(({ why }) => why), ...fromRecords(vaporizer, subject, context)];
    return reasons.length === 0 ? [] : [{ subject, why: reasons.join(", "), items: failed.map(({ item }) => item) }];
  });
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
