import type { Check, Evidence } from "@/lib/domain/evidence";
import type { CheckKind } from "@/lib/domain/vocabulary";
import { type Instant, instantOf } from "@/lib/units/time";

const WHOLE_MACHINE: readonly CheckKind[] = ["daily", "first-user", "each-case"];

/**
 * May this person leave out what the same user need not repeat? Only on a successive case: they signed a check of this workstation
 * themselves in this check day, nobody else checked it since, and nothing happened to it since.
 *
 * source   FDA anesthesia apparatus checkout, 1993: steps 1 to 9 need not be repeated, or may be shortened, by the same user on
 *          successive cases after the first checkout; that a change of equipment ends it is common practice, no source
 */
export function mayShorten({ checks, events, workstation }: Evidence, personId: string, dayFrom: Instant): boolean {
  const here = workstation?.id ?? null;
  const ofToday = checks
    .filter((one) => WHOLE_MACHINE.includes(one.kind) && (one.workstation ?? here) === here && signedAt(one) >= dayFrom)
    .sort((left, right) => signedAt(right) - signedAt(left));
  const [last] = ofToday;
  if (last === undefined || signature(last)?.by !== personId) return false;
  const begun = instantOf(last.startedAt);
  return events.every(({ at }) => instantOf(at) <= begun);
}

const signature = ({ signed }: Check) => signed.find(({ meaning }) => meaning === "performed") ?? null;
const signedAt = (check: Check): number => {
  const found = signature(check);
  return found === null ? Number.NEGATIVE_INFINITY : instantOf(found.at);
};
