import type { WorkstationEvidence } from "@/lib/domain/evidence";
import type { FaultEvidence } from "@/lib/domain/evidence-records";
import { done, type Outcome, refused } from "@/lib/domain/outcome";

/** A fault is looked at once; whoever comes second is told, so that two conclusions never stand side by side. */
export function decideLook(workstation: WorkstationEvidence, faultId: string): Outcome<FaultEvidence, "not-found"> {
  const fault = workstation.faults.find(({ id }) => id === faultId);
  if (fault && !fault.lookedAt) return done(fault);
  return refused(
    "not-found",
    `No such fault is open on ${workstation.tag}: somebody may have looked at it already.`,
    "faultId",
  );
}

const sameWords = (left: string, right: string): boolean =>
  left.trim().toLowerCase().replace(/\s+/g, " ") === right.trim().toLowerCase().replace(/\s+/g, " ");

/** The same fault in the same words, still open, is one fault; a second look at the switch may say more than the first. */
export function decideReport(
  workstation: WorkstationEvidence,
  text: string,
  wouldNotUse: boolean,
): Outcome<null, "already-done"> {
  const known = workstation.faults.find((fault) => !fault.lookedAt && sameWords(fault.text, text));
  if (!known || (wouldNotUse && !known.wouldNotUse)) return done(null);
  return refused("already-done", `This fault of ${workstation.tag} is reported already and not yet looked at.`, "text");
}
