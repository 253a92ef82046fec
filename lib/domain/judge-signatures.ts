import { type CheckClock, checkDayAt } from "@/lib/domain/check-day";
import type { Check, CheckSignature, Observation } from "@/lib/domain/evidence";
import { type Instant, instantOf } from "@/lib/units/time";

/** Signatures, and how long what they signed counts. */

/** A check of the whole workstation, as against a recheck of parts of it. */
export const isFullCheck = (check: Check): boolean => check.kind === "daily" || check.kind === "first-user";

/** A check with its moments read once. */
export interface ReadCheck {
  readonly check: Check;
  readonly full: boolean;
  readonly startedAt: Instant;
  readonly signatures: readonly { readonly signature: CheckSignature; readonly at: Instant }[];
}

/**
 * A check of a workstation that was swapped out since still signs what it saw of the room; of the one that stands here now it
 * says nothing.
 */
export const isOfWorkstation = ({ workstation }: Check, here: string | null): boolean =>
  workstation === undefined || workstation === null || workstation === here;

export function readCheck(check: Check, here: string | null): ReadCheck {
  return {
    check,
    full: isFullCheck(check) && isOfWorkstation(check, here),
    startedAt: instantOf(check.startedAt),
    signatures: check.signed.map((signature) => ({ signature, at: instantOf(signature.at) })),
  };
}

/**
 * A signature is bound to what was there when it was given: an answer recorded after it is not signed by it.
 * A confirmation signs the confirming person's own answers only; somebody else's unsigned answers stay unsigned.
 */
export function isSigned(observation: Observation, recordedAt: Instant, check: ReadCheck | undefined): boolean {
  if (check === undefined) return false;
  for (const { signature, at } of check.signatures) {
    if (at < recordedAt) continue;
    if (signature.meaning === "performed") return true;
    if (signature.meaning === "confirmed" && signature.by === observation.by) return true;
  }
  return false;
}

/** A full check with the moment it was performed and the end of its validity, a running case aside. */
export interface PerformedCheck {
  readonly check: Check;
  readonly signature: CheckSignature;
  readonly startedAt: Instant;
  readonly performedAt: Instant;
  readonly validUntil: Instant;
}

/** Full checks that were performed, newest first. */
export function performedChecks(checks: Iterable<ReadCheck>, clock: CheckClock): PerformedCheck[] {
  const performed: PerformedCheck[] = [];
  for (const { check, full, startedAt } of checks) {
    const signature = full ? latestSignature([check], "performed") : null;
    if (signature === null) continue;
    const performedAt = instantOf(signature.at);
    const { validUntil } = checkDayAt(clock, performedAt);
    performed.push({ check, signature, startedAt, performedAt, validUntil });
  }
  return performed.sort((left, right) => right.performedAt - left.performedAt || byText(left.check.id, right.check.id));
}

/** The latest signature of a meaning; of two at the same moment always the same one, however they are listed. */
export function latestSignature(
  checks: readonly Check[],
  meaning: CheckSignature["meaning"],
  since: Instant | null = null,
): CheckSignature | null {
  let found: CheckSignature | null = null;
  for (const { signed } of checks) {
    for (const signature of signed) {
      if (signature.meaning !== meaning || (since !== null && instantOf(signature.at) < since)) continue;
      if (found === null || isLater(signature, found)) found = signature;
    }
  }
  return found;
}

function isLater(left: CheckSignature, right: CheckSignature): boolean {
  const difference = instantOf(left.at) - instantOf(right.at);
  return difference === 0
    ? byText(left.by, right.by) < 0 || (left.by === right.by && left.role < right.role)
    : difference > 0;
}

export const byText = (left: string, right: string): number => (left < right ? -1 : left > right ? 1 : 0);

export type RunningCase = { readonly since: Instant } | null;

/** What counted when a case began goes on counting until the case ends: nothing flips a room in use. */
export function stillCounts(validUntil: Instant, now: Instant, running: RunningCase): boolean {
  return now < validUntil || (running !== null && running.since < validUntil);
}
