import type { CheckSignature } from "@/lib/domain/evidence";
import type { EvidenceIndex } from "@/lib/domain/judge-index";
import { isOfWorkstation, latestSignature, type PerformedCheck } from "@/lib/domain/judge-signatures";
import type { Judgement, Mark } from "@/lib/domain/judgement";
import { checkMarks } from "@/lib/domain/rules/policy/check-marks";
import { valuesOf } from "@/lib/domain/rules/settings";

const NO_MARKS: Judgement["marks"] = { equipment: null, provider: null };

/**
 * The two marks. Equipment: the newest full check that still counts, also when it found failures, because it was done.
 * Provider: a confirmation at or after it, or the same signature where a provider did the whole check alone.
 */
export function marksAt(index: EvidenceIndex, valid: PerformedCheck | null): Judgement["marks"] {
  if (valid === null) return NO_MARKS;
  const { signature, performedAt } = valid;
  const { checks, workstation } = index.evidence;
  const ofThisOne = checks.filter((check) => isOfWorkstation(check, workstation?.id ?? null));
  const confirmed = latestSignature(ofThisOne, "confirmed", performedAt);
  if (confirmed !== null) return { equipment: markOf(signature), provider: markOf(confirmed) };
  const alone = isProvider(signature) && valuesOf(checkMarks, index.evidence).providerAlone;
  return { equipment: markOf(signature), provider: alone ? markOf(signature) : null };
}

const isProvider = ({ role }: CheckSignature): boolean => role === "provider" || role === "charge-provider";

const markOf = ({ by, role, at }: CheckSignature): Mark => ({ by, role, at });
