import type { CouldNot, TaskDraft, TaskWork } from "@/lib/domain/task/model";
import type { Tx } from "@/lib/storage/client";
import { type Instant, instantOf, timestampOf } from "@/lib/units/time";

export interface OpenTask {
  readonly key: string;
  readonly holderKind: "room" | "workstation" | "event";
  readonly holderId: string;
  readonly workstationId: string | null;
  readonly draft: TaskDraft;
  readonly openedAt: Instant;
  readonly claim: { readonly personId: string; readonly name: string; readonly since: Instant } | null;
  /** How far whoever has it is; null while nobody has it. */
  readonly work: TaskWork | null;
  readonly couldNot: readonly CouldNot[];
}

interface OpenTaskRow {
  key: string;
  holder_kind: "room" | "workstation" | "event";
  holder_id: string;
  workstation_id: string | null;
  document: TaskDraft;
  opened_at: string;
  claim: { person_id: string; name: string; from: string } | null;
  step: { kind: "started" | "paused"; reason: string | null; at: string } | null;
  could_not: { name: string; reason: string; at: string }[];
}

const openTaskOf = (row: OpenTaskRow): OpenTask => ({
  key: row.key,
  holderKind: row.holder_kind,
  holderId: row.holder_id,
  workstationId: row.workstation_id,
  draft: row.document,
  openedAt: instantOf(row.opened_at),
  claim: row.claim && { personId: row.claim.person_id, name: row.claim.name, since: instantOf(row.claim.from) },
  work: row.claim && workOf(row.claim.from, row.step),
  couldNot: row.could_not.map((one) => ({ ...one, at: timestampOf(instantOf(one.at)) })),
});

function workOf(claimedAt: string, step: OpenTaskRow["step"]): TaskWork {
  const utc = (text: string) => timestampOf(instantOf(text));
  return step
    ? { state: step.kind, since: utc(step.at), reason: step.kind === "paused" ? step.reason : null }
    : { state: "claimed", since: utc(claimedAt), reason: null };
}

/** The open tasks of a facility, or of some holders, with who is on each. */
export async function openTasks(
  tx: Tx,
  facilityId: string,
  only: { readonly key?: string; readonly holders?: readonly string[] } = {},
): Promise<OpenTask[]> {
  const [row] = await tx.$queryRaw<{ tasks: OpenTaskRow[] }[]>`
    SELECT coalesce(json_agg(x), '[]') AS tasks FROM (
      SELECT t.key, t.holder_kind, t.holder_id, t.workstation_id, t.document, t.opened_at,
        CASE WHEN c.person_id IS NULL THEN NULL ELSE json_build_object('person_id', c.person_id, 'name', c.name, 'from', c."from") END AS claim,
        (SELECT json_build_object('kind', s.kind, 'reason', s.reason, 'at', s.at) FROM fact.task_step s
         WHERE s.facility_id = t.facility_id AND s.task_key = t.key AND s.person_id = c.person_id AND s.at >= c."from" AND s.kind IN ('started', 'paused')
         ORDER BY s.at DESC, s.id LIMIT 1) AS step,
        (SELECT coalesce(json_agg(json_build_object('name', p.name, 'reason', s.reason, 'at', s.at) ORDER BY s.at), '[]') FROM fact.task_step s
         JOIN person p ON p.id = s.person_id
         WHERE s.facility_id = t.facility_id AND s.task_key = t.key AND s.kind = 'cannot-do' AND s.at >= t.opened_at) AS could_not
      FROM derived.task t
      LEFT JOIN LATERAL (SELECT k.person_id, p.name, k."from" FROM fact.claim k JOIN person p ON p.id = k.person_id
        WHERE k.facility_id = t.facility_id AND k.task_key = t.key AND k."to" IS NULL) c ON true
      WHERE t.facility_id = ${facilityId}::uuid AND t.closed_at IS NULL
        AND (${only.key ?? null}::text IS NULL OR t.key = ${only.key ?? null}::text)
        AND (${only.holders ? [...only.holders] : null}::uuid[] IS NULL OR t.holder_id = ANY (${only.holders ? [...only.holders] : null}::uuid[]))
      ORDER BY t.opened_at, t.key) x`;
  return (row?.tasks ?? []).map(openTaskOf);
}

export async function openTask(tx: Tx, facilityId: string, key: string): Promise<OpenTask | null> {
  return (await openTasks(tx, facilityId, { key }))[0] ?? null;
}

/** A task that was closed over this person's head while they had it, for what they have done about it by then. */
export async function closedUnder(
  tx: Tx,
  facilityId: string,
  key: string,
  personId: string,
): Promise<Pick<OpenTask, "key" | "draft" | "workstationId"> | null> {
  const [row] = await tx.$queryRaw<{ document: TaskDraft; workstationId: string | null }[]>`
    SELECT t.document, t.workstation_id AS "workstationId" FROM derived.task t
    JOIN fact.claim c ON c.facility_id = t.facility_id AND c.task_key = t.key AND c."to" = greatest(t.closed_at, c."from")
    WHERE t.facility_id = ${facilityId}::uuid AND t.key = ${key} AND t.closed_at IS NOT NULL
      AND c.person_id = ${personId}::uuid AND c.outcome = 'task-closed'
    ORDER BY t.closed_at DESC LIMIT 1`;
  return row ? { key, draft: row.document, workstationId: row.workstationId } : null;
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
  outcome: "given-back" | "finished" | "handed-over" | "taken-over" | "cannot-do",
): Promise<void> {
  await tx.$executeRaw`
    UPDATE fact.claim SET "to" = greatest(${timestampOf(at)}::timestamptz, "from"), outcome = ${outcome}
    WHERE facility_id = ${facilityId}::uuid AND task_key = ${key} AND "to" IS NULL`;
}
