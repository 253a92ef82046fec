import { type JudgedAnswer, observationsOf } from "@/lib/commands/answers";
import type { Context } from "@/lib/commands/command";
import { insertCheck, insertObservations, insertSignature } from "@/lib/storage/checks";
import type { Tx } from "@/lib/storage/client";

export interface SignedRecheck {
  readonly workstationId: string;
  readonly roomId: string | null;
  readonly procedureId: string | null;
  readonly taskKey: string | null;
  readonly answers: readonly JudgedAnswer[];
  /** What was shown, where that is more than the answers. */
  readonly shown?: (checkId: string) => readonly unknown[];
}

/** Answers outside of a full check make a check of their own, begun and signed at once by who gives them. */
export async function recordSignedRecheck(
  tx: Tx,
  { workstationId, roomId, procedureId, taskKey, answers, shown }: SignedRecheck,
  context: Context,
): Promise<{ readonly checkId: string; readonly boundTo: string }> {
  const { facilityId } = context.begun.scope;
  const by = context.actor.personId;
  const check = { id: context.newId(), workstationId, roomId, answers: [] };
  const observations = observationsOf(answers, check, context);
  await insertCheck(tx, facilityId, {
    ...check,
    procedureId,
    kind: "recheck",
    startedAt: context.now,
    startedBy: by,
    taskKey,
  });
  await insertObservations(tx, facilityId, observations);
  const said = shown?.(check.id) ?? [check.id, ...observations.map(({ id, answer, verdict }) => [id, answer, verdict])];
  const boundTo = context.digest(JSON.stringify(said));
  await insertSignature(tx, facilityId, {
    id: context.newId(),
    checkId: check.id,
    personId: by,
    role: context.role,
    meaning: "performed",
    at: context.now,
    boundTo,
  });
  return { checkId: check.id, boundTo };
}
