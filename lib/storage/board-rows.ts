import type { BoardSummary } from "@/lib/domain/board-summary";
import type { Judgement } from "@/lib/domain/judgement";
import { ENGINE_VERSION } from "@/lib/domain/judgement";
import type { TaskDraft } from "@/lib/domain/task/model";
import type { Tx } from "@/lib/storage/client";

/** One room as the board query finds it. */
export interface BoardRowRecord {
  readonly roomId: string;
  readonly name: string;
  readonly suite: string;
  readonly walkingOrder: number;
  readonly workstation: { readonly id: string; readonly tag: string; readonly model: string } | null;
  readonly judgement: Judgement | null;
  readonly summary: BoardSummary | null;
  /** Milliseconds; what the clock has overtaken is treated as unjudged by every reader. */
  readonly goodUntil: number | null;
  readonly names: Readonly<Record<string, string>>;
  readonly tasks: readonly {
    readonly key: string;
    readonly document: TaskDraft;
    readonly person: string | null;
    readonly claimedAt: string | null;
  }[];
}

/** The rooms of a facility, or some of them, in one statement: a small read however long the history is. */
export async function boardRowRecords(
  tx: Tx,
  facilityId: string,
  rooms: readonly string[] | null,
): Promise<BoardRowRecord[]> {
  const [row] = await tx.$queryRaw<{ rows: BoardRowRecord[] }[]>`
    SELECT coalesce(json_agg(x), '[]') AS rows FROM (
      SELECT r.id AS "roomId", r.name, s.name AS suite, r.walking_order AS "walkingOrder",
        CASE WHEN w.id IS NULL THEN NULL ELSE json_build_object('id', w.id, 'tag', w.tag, 'model', m.name) END AS workstation,
        d.judgement, d.summary, (extract(epoch FROM d.good_until) * 1000)::bigint AS "goodUntil",
        (SELECT coalesce(json_object_agg(p.id, p.name), '{}') FROM person p
         WHERE p.id::text IN (d.judgement#>>'{marks,equipment,by}', d.judgement#>>'{marks,provider,by}')) AS names,
        (SELECT coalesce(json_agg(json_build_object('key', t.key, 'document', t.document, 'person', p.name, 'claimedAt', c."from") ORDER BY t.opened_at, t.key), '[]')
         FROM derived.task t
         LEFT JOIN fact.claim c ON c.facility_id = t.facility_id AND c.task_key = t.key AND c."to" IS NULL
         LEFT JOIN person p ON p.id = c.person_id
         WHERE t.facility_id = r.facility_id AND t.holder_kind = 'room' AND t.holder_id = r.id AND t.closed_at IS NULL) AS tasks
      FROM room r
      JOIN suite s ON s.facility_id = r.facility_id AND s.id = r.suite_id
      LEFT JOIN fact.placement q ON q.facility_id = r.facility_id AND q.room_id = r.id AND q."to" IS NULL
      LEFT JOIN workstation w ON w.facility_id = q.facility_id AND w.id = q.workstation_id
      LEFT JOIN workstation_model m ON m.id = w.model_id
      LEFT JOIN derived.readiness d ON d.facility_id = r.facility_id AND d.holder_kind = 'room' AND d.holder_id = r.id
        -- What an earlier version of the rules' code judged is as good as not judged.
        AND d.engine_version = ${ENGINE_VERSION}
      WHERE r.facility_id = ${facilityId}::uuid AND r.retired_at IS NULL AND (${rooms ? [...rooms] : null}::uuid[] IS NULL OR r.id = ANY (${rooms ? [...rooms] : null}::uuid[]))
      ORDER BY s.walking_order, r.walking_order, r.name) x`;
  return row?.rows ?? [];
}
