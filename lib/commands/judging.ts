import { boardSummary } from "@/lib/domain/board-summary";
import { answerHolds, type CheckDay, checkDayAt } from "@/lib/domain/check-day";
import { judge } from "@/lib/domain/judge";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { tasksFor } from "@/lib/domain/task/decide";
import type { Tx } from "@/lib/storage/client";
import type { Begun } from "@/lib/storage/command-frame";
import { type Holder, loadEvidence } from "@/lib/storage/evidence";
import { everyHolder } from "@/lib/storage/places";
import { type Judged, writeReadiness } from "@/lib/storage/readiness";
import { type Instant, timestampOf } from "@/lib/units/time";

/**
 * Judges again what a command touched and stores readiness and tasks; returns what was judged.
 * Rows a command created itself (an import) are not among the locked ones, hence `everything`.
 */
export async function judgeAndStore(
  tx: Tx,
  begun: Begun,
  now: Instant,
  cause: string,
  everything: boolean,
): Promise<readonly Holder[]> {
  const { rooms, workstations } = everything ? await everyHolder(tx, begun.scope.facilityId) : begun;
  if (rooms.length + workstations.length === 0) return [];
  const holders = await loadEvidence(tx, begun, rooms, workstations, now);
  await writeReadiness(
    tx,
    begun.scope.facilityId,
    holders.map((holder) => judgedOf(holder, checkDayAt(checkClock(begun), now))),
    begun.settingsVersion,
    now,
    cause,
  );
  return holders;
}

function judgedOf(holder: Holder, today: CheckDay): Judged {
  const judgement = judge(holder.evidence);
  return {
    holderKind: holder.kind,
    holderId: holder.id,
    workstationId: holder.workstationId,
    judgement,
    summary: { ...boardSummary(holder.evidence, judgement), listFrom: holder.listFrom },
    goodUntil: timestampOf(answerHolds(judgement.goodUntil, today)),
    tasks: tasksFor(judgement, holder.evidence),
  };
}
