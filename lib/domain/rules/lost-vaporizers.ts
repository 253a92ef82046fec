import type { FittedVaporizer } from "@/lib/domain/evidence";
import { type ItemId, type Subject, sameSubject } from "@/lib/domain/items";
import type { RuleContext } from "@/lib/domain/rule";
import { endOf } from "@/lib/domain/rules/dates";
import { saidDate } from "@/lib/domain/wording";
import type { Timestamp } from "@/lib/units/time";

/** What makes a vaporizer unusable until it is put right. */
const LOST_BY: readonly { readonly item: ItemId; readonly why: string }[] = [
  { item: "vaporizer-seated", why: "not seated and locked" },
  { item: "filler-closed", why: "filler open" },
  { item: "vaporizer-fill", why: "empty" },
];

export interface LostVaporizer {
  readonly subject: Subject;
  readonly vaporizer: FittedVaporizer;
  readonly why: string;
  readonly items: readonly ItemId[];
  /** When it was last seen failing; undefined where records alone say so. */
  readonly since: Timestamp | undefined;
}

const NONE: readonly LostVaporizer[] = [];
/** Three rules ask for them at the same moment. */
const asked = new WeakMap<RuleContext, readonly LostVaporizer[]>();

/** The fitted vaporizers that cannot be used now. */
export function lostVaporizers(context: RuleContext): readonly LostVaporizer[] {
  const known = asked.get(context);
  if (known !== undefined) {
    // Whoever asks must be asked again when a calibration ends.
    for (const vaporizer of context.evidence.workstation?.fitted.vaporizers ?? [])
      isPastCalibration(vaporizer, context);
    return known;
  }
  const found = findLost(context);
  asked.set(context, found);
  return found;
}

function findLost(context: RuleContext): readonly LostVaporizer[] {
  const vaporizers = context.evidence.workstation?.fitted.vaporizers ?? [];
  let lost: LostVaporizer[] | null = null;
  for (const vaporizer of vaporizers) {
    const subject: Subject = { kind: "vaporizer", id: vaporizer.id };
    const failed = context.failing().length === 0 ? NOT_FAILED : failedLooks(subject, context);
    const reasons = [...failed.map(({ why }) => why), ...fromRecords(vaporizer, subject, context)];
    if (reasons.length === 0) continue;
    const items = failed.map(({ item }) => item);
    lost = lost ?? [];
    lost.push({ subject, vaporizer, why: reasons.join(", "), items, since: failed[0]?.seen });
  }
  return lost ?? NONE;
}

interface FailedLook {
  readonly item: ItemId;
  readonly why: string;
  readonly seen: Timestamp;
}
const NOT_FAILED: readonly FailedLook[] = [];

const failedLooks = (subject: Subject, context: RuleContext): readonly FailedLook[] =>
  LOST_BY.flatMap(({ item, why }) => {
    const standing = context.standing(item, subject);
    return standing.state === "failing" ? [{ item, why, seen: standing.observation.observedAt }] : [];
  });

function fromRecords(vaporizer: FittedVaporizer, subject: Subject, context: RuleContext): string[] {
  const { workstation } = context.evidence;
  const reasons: string[] = [];
  if (workstation?.quarantine.some((one) => !one.item && sameSubject(one.subject, subject)))
    reasons.push("quarantined");
  if (vaporizer.calibration !== null && isPastCalibration(vaporizer, context))
    reasons.push(`past its calibration, window ended ${saidDate(vaporizer.calibration.windowTo)}`);
  return reasons;
}

function isPastCalibration({ calibration }: FittedVaporizer, context: RuleContext): boolean {
  if (calibration === null) return false;
  return context.hasCome(endOf(context.evidence.facility.timeZone, calibration.windowTo));
}
