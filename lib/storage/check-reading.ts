import type { Answer } from "@/lib/domain/answer";
import { answerKey } from "@/lib/domain/check/model";
import type { ItemId, SubjectKind } from "@/lib/domain/items";
import type { Procedure } from "@/lib/domain/procedure/model";
import type { CheckRecord } from "@/lib/storage/checks";
import type { Tx } from "@/lib/storage/client";
import { instantOf, type Timestamp, timestampOf } from "@/lib/units/time";

export async function findProcedure(tx: Tx, facilityId: string, procedureId: string): Promise<Procedure | null> {
  const [row] = await tx.$queryRaw<{ document: Procedure }[]>`
    SELECT document FROM procedure WHERE facility_id = ${facilityId}::uuid AND id = ${procedureId}::uuid`;
  return row?.document ?? null;
}

export async function roomName(tx: Tx, facilityId: string, roomId: string): Promise<string | null> {
  const [row] = await tx.$queryRaw<
    { name: string }[]
  >`SELECT name FROM room WHERE facility_id = ${facilityId}::uuid AND id = ${roomId}::uuid`;
  return row?.name ?? null;
}

interface PreviousRow {
  item: ItemId;
  subject_kind: SubjectKind;
  subject_id: string;
  answer: Answer;
  observed_at: string;
}

/** The answers before this check's own, one a question, as long as they are not too old to say anything. */
export async function previousAnswers(
  tx: Tx,
  facilityId: string,
  check: CheckRecord,
): Promise<ReadonlyMap<string, { readonly answer: Answer; readonly at: Timestamp }>> {
  const [row] = await tx.$queryRaw<{ rows: PreviousRow[] }[]>`
    SELECT coalesce(json_agg(x), '[]') AS rows FROM (
      SELECT DISTINCT ON (o.item, o.subject_id) o.item, o.subject_kind, o.subject_id, o.answer, o.observed_at
      FROM fact.observation o
      WHERE o.facility_id = ${facilityId}::uuid AND (o.workstation_id = ${check.workstationId}::uuid OR o.room_id = ${check.roomId}::uuid)
        AND o.observed_at < ${timestampOf(check.startedAt)}::timestamptz AND o.observed_at > ${timestampOf(check.startedAt)}::timestamptz - interval '7 days'
      ORDER BY o.item, o.subject_id, o.observed_at DESC) x`;
  return new Map(
    (row?.rows ?? []).map(({ item, subject_kind, subject_id, answer, observed_at }) => [
      answerKey(item, { kind: subject_kind, id: subject_id }),
      { answer, at: timestampOf(instantOf(observed_at)) },
    ]),
  );
}
