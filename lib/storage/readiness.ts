import type { BoardSummary } from "@/lib/domain/board-summary";
import { ENGINE_VERSION, type Judgement } from "@/lib/domain/judgement";
import type { TaskDraft } from "@/lib/domain/task/model";
import type { Tx } from "@/lib/storage/client";
import { type Instant, type Timestamp, timestampOf } from "@/lib/units/time";

/** One holder's new judgement and the tasks that follow from it. */
export interface Judged {
  readonly holderKind: "room" | "workstation";
  readonly holderId: string;
  readonly workstationId: string | null;
  readonly judgement: Judgement;
  readonly summary: BoardSummary;
  /** When the clock next changes anything here. */
  readonly goodUntil: Timestamp | null;
  readonly tasks: readonly TaskDraft[];
}

/**
 * Stores judgements and what follows from them, all holders in one statement: the readiness rows, a line in the log of changes
 * where the state or its reasons differ, and the tasks (opened, refreshed, closed; a closed task ends its claim).
 */
export async function writeReadiness(
  tx: Tx,
  facilityId: string,
  judged: readonly Judged[],
  settingsVersion: number,
  now: Instant,
  cause: string,
): Promise<void> {
  if (judged.length === 0) return;
  const at = timestampOf(now);
  const holders = judged.map(({ holderKind, holderId, workstationId, judgement, summary, goodUntil }) => ({
    holderKind,
    holderId,
    workstationId,
    judgement,
    summary,
    goodUntil,
  }));
  const tasks = judged.flatMap(({ holderKind, holderId, workstationId, tasks: drafts }) =>
    drafts.map((document) => ({ holderKind, holderId, workstationId, key: document.key, document })),
  );
  await tx.$executeRaw`
    WITH input AS (
      SELECT * FROM jsonb_to_recordset(${JSON.stringify(holders)}::jsonb)
        AS i("holderKind" text, "holderId" uuid, "workstationId" uuid, judgement jsonb, summary jsonb, "goodUntil" timestamptz)),
    wanted AS (
      SELECT DISTINCT ON (key) * FROM jsonb_to_recordset(${JSON.stringify(tasks)}::jsonb)
        AS t("holderKind" text, "holderId" uuid, "workstationId" uuid, key text, document jsonb)),
    logged AS (
      INSERT INTO derived.readiness_change (facility_id, holder_kind, holder_id, state, judgement, at, cause, settings_version, engine_version)
      SELECT ${facilityId}::uuid, i."holderKind", i."holderId", i.judgement->>'state', i.judgement, ${at}::timestamptz, ${cause}, ${settingsVersion}, ${ENGINE_VERSION}
      FROM input i LEFT JOIN derived.readiness r
        ON r.facility_id = ${facilityId}::uuid AND r.holder_kind = i."holderKind" AND r.holder_id = i."holderId"
      WHERE r.holder_id IS NULL OR (r.judgement - 'decideBy' - 'goodUntil') IS DISTINCT FROM (i.judgement - 'decideBy' - 'goodUntil')),
    stored AS (
      INSERT INTO derived.readiness (facility_id, holder_kind, holder_id, workstation_id, state, judgement, summary, good_until, judged_at, settings_version, engine_version)
      SELECT ${facilityId}::uuid, i."holderKind", i."holderId", i."workstationId", i.judgement->>'state', i.judgement, i.summary, i."goodUntil", ${at}::timestamptz, ${settingsVersion}, ${ENGINE_VERSION}
      FROM input i
      ON CONFLICT (facility_id, holder_kind, holder_id) DO UPDATE SET workstation_id = excluded.workstation_id, state = excluded.state,
        judgement = excluded.judgement, summary = excluded.summary, good_until = excluded.good_until, judged_at = excluded.judged_at,
        settings_version = excluded.settings_version, engine_version = excluded.engine_version),
    -- A workstation that was a spare and now stands in a room (or the other way round) is judged there and nowhere else.
    moved AS (
      DELETE FROM derived.readiness r USING input i
      WHERE r.facility_id = ${facilityId}::uuid AND i."holderKind" = 'room' AND r.holder_kind = 'workstation' AND r.holder_id = i."workstationId"),
    closed AS (
      UPDATE derived.task t SET closed_at = ${at}::timestamptz
      WHERE t.facility_id = ${facilityId}::uuid AND t.closed_at IS NULL
        AND (EXISTS (SELECT FROM input i WHERE i."holderKind" = t.holder_kind AND i."holderId" = t.holder_id)
          OR EXISTS (SELECT FROM input i WHERE t.holder_kind = 'workstation' AND i."workstationId" = t.holder_id))
        AND NOT EXISTS (SELECT FROM wanted w WHERE w.key = t.key)
      RETURNING t.key),
    ended AS (
      UPDATE fact.claim c SET "to" = greatest(${at}::timestamptz, c."from"), outcome = 'task-closed'
      FROM closed WHERE c.facility_id = ${facilityId}::uuid AND c.task_key = closed.key AND c."to" IS NULL)
    INSERT INTO derived.task (facility_id, key, holder_kind, holder_id, workstation_id, document, opened_at)
    SELECT ${facilityId}::uuid, w.key, w."holderKind", w."holderId", w."workstationId", w.document, ${at}::timestamptz FROM wanted w
    ON CONFLICT (facility_id, key) WHERE closed_at IS NULL
    DO UPDATE SET document = excluded.document, holder_kind = excluded.holder_kind, holder_id = excluded.holder_id, workstation_id = excluded.workstation_id`;
}
