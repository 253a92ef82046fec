import type { Answer } from "@/lib/domain/answer";
import { answerKey } from "@/lib/domain/check/model";
import type { WorkstationEvidence } from "@/lib/domain/evidence";
import type { ItemId, SubjectKind } from "@/lib/domain/items";
import type { Procedure } from "@/lib/domain/procedure/model";
import type { CheckRecord } from "@/lib/storage/checks";
import { sql, type Tx } from "@/lib/storage/client";
import { fittedOf } from "@/lib/storage/evidence-assemble";
import type { FittedRows } from "@/lib/storage/evidence-rows";
import { fittedParts } from "@/lib/storage/fitted-parts";
import { type Instant, instantOf, type Timestamp, timestampOf } from "@/lib/units/time";

export async function findProcedure(tx: Tx, facilityId: string, procedureId: string): Promise<Procedure | null> {
  const [row] = await tx.$queryRaw<{ document: Procedure }[]>`
    SELECT document FROM procedure WHERE facility_id = ${facilityId}::uuid AND id = ${procedureId}::uuid`;
  return row?.document ?? null;
}

/** What was fitted to a workstation at an instant: a check of the past is read with the parts that it was about. */
export async function fittedAt(
  tx: Tx,
  facilityId: string,
  workstationId: string,
  at: Instant,
): Promise<WorkstationEvidence["fitted"]> {
  const then = timestampOf(at);
  const [row] = await tx.$queryRaw<FittedRows[]>`
    WITH f AS NOT MATERIALIZED (SELECT ${facilityId}::uuid AS id, ARRAY[${workstationId}::uuid] AS workstations)
    SELECT ${fittedParts(sql`t."from" <= ${then}::timestamptz AND (t."to" IS NULL OR t."to" > ${then}::timestamptz)`)}`;
  if (!row) throw new Error("the query of fitted parts returned nothing");
  return fittedOf(workstationId, row);
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
        AND NOT EXISTS (SELECT FROM fact.check_correction k WHERE k.facility_id = o.facility_id AND k.check_id = o.check_id)
      ORDER BY o.item, o.subject_id, o.observed_at DESC) x`;
  return new Map(
    (row?.rows ?? []).map(({ item, subject_kind, subject_id, answer, observed_at }) => [
      answerKey(item, { kind: subject_kind, id: subject_id }),
      { answer, at: timestampOf(instantOf(observed_at)) },
    ]),
  );
}
