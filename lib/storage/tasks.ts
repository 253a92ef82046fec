import type { TaskDraft } from "@/lib/domain/task/model";
import type { Tx } from "@/lib/storage/client";
import { type Instant, instantOf, timestampOf } from "@/lib/units/time";

export interface OpenTask {
  readonly key: string;
  readonly holderKind: "room" | "workstation";
  readonly holderId: string;
  readonly workstationId: string | null;
  readonly draft: TaskDraft;
  readonly openedAt: Instant;
  readonly claim: { readonly personId: string; readonly name: string; readonly since: Instant } | null;
}

interface OpenTaskRow {
  key: string;
  holder_kind: "room" | "workstation";
  holder_id: string;
  workstation_id: string | null;
  document: TaskDraft;
  opened_at: string;
  claim: { person_id: string; name: string; from: string } | null;
}

const openTaskOf = (row: OpenTaskRow): OpenTask => ({
  key: row.key,
  holderKind: row.holder_kind,
  holderId: row.holder_id,
  workstationId: row.workstation_id,
  draft: row.document,
  openedAt: instantOf(row.opened_at),
  claim: row.claim && { personId: row.claim.person_id, name: row.claim.name, since: instantOf(row.claim.from) },
});

/** The open tasks of a facility, or of some holders, with who is on each. */
export async function openTasks(
  tx: Tx,
  facilityId: string,
  only: { readonly key?: string; readonly holders?: readonly string[] } = {},
): Promise<OpenTask[]> {
  const [row] = await tx.$queryRaw<{ tasks: OpenTaskRow[] }[]>`
    SELECT coalesce(json_agg(x), '[]') AS tasks FROM (
      SELECT t.key, t.holder_kind, t.holder_id, t.workstation_id, t.document, t.opened_at,
        (SELECT json_build_object('person_id', c.person_id, 'name', p.name, 'from', c."from")
         FROM fact.claim c JOIN person p ON p.id = c.person_id
         WHERE c.facility_id = t.facility_id AND c.task_key = t.key AND c."to" IS NULL) AS claim
      FROM derived.task t
      WHERE t.facility_id = ${facilityId}::uuid AND t.closed_at IS NULL
        AND (${only.key ?? null}::text IS NULL OR t.key = ${only.key ?? null}::text)
        AND (${only.holders ? [...only.holders] : null}::uuid[] IS NULL OR t.holder_id = ANY (${only.holders ? [...only.holders] : null}::uuid[]))
      ORDER BY t.opened_at, t.key) x`;
  return (row?.tasks ?? []).map(openTaskOf);
}

export async function openTask(tx: Tx, facilityId: string, key: string): Promise<OpenTask | null> {
  return (await openTasks(tx, facilityId, { key }))[0] ?? null;
}

/** False when somebody took it in the meantime. */
export async function insertClaim(
  tx: Tx,
  facilityId: string,
  claim: { readonly id: string; readonly key: string; readonly personId: string; readonly at: Instant },
): Promise<boolean> {
  const inserted = await tx.$executeRaw`
    INSERT INTO fact.claim (facility_id, id, task_key, person_id, "from")
    VALUES (${facilityId}::uuid, ${claim.id}::uuid, ${claim.key}, ${claim.personId}::uuid, ${timestampOf(claim.at)}::timestamptz)
    ON CONFLICT DO NOTHING`;
  return inserted === 1;
}

/** Ends the open claim on a task; the outcome says how. */
export async function endClaim(
  tx: Tx,
  facilityId: string,
  key: string,
  at: Instant,
  outcome: "given-back" | "finished",
): Promise<void> {
  await tx.$executeRaw`
    UPDATE fact.claim SET "to" = greatest(${timestampOf(at)}::timestamptz, "from"), outcome = ${outcome}
    WHERE facility_id = ${facilityId}::uuid AND task_key = ${key} AND "to" IS NULL`;
}
