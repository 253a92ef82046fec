import type { CheckKind } from "@/lib/domain/vocabulary";
import type { Tx } from "@/lib/storage/client";
import { type Instant, timestampOf } from "@/lib/units/time";

/** A check that was done on paper and entered afterwards. Instants as PostgreSQL writes them. */
export interface PaperEntryRow {
  check_id: string;
  kind: CheckKind;
  workstation: string;
  room: string | null;
  done_by: string;
  earliest: string;
  latest: string;
  entered_by: string;
  entered_at: string;
  answers: number;
  failing: number;
  signed_by: string | null;
}

/** The newest entry first. */
export async function paperEntriesSince(tx: Tx, facilityId: string, since: Instant): Promise<PaperEntryRow[]> {
  return tx.$queryRaw<PaperEntryRow[]>`
    SELECT c.id AS check_id, c.kind, w.tag AS workstation, r.name AS room, c.started_by AS done_by,
      min(o.known ->> 'earliest') AS earliest, max(o.known ->> 'latest') AS latest,
      (array_agg(o.recorded_by ORDER BY o.recorded_at))[1] AS entered_by, to_jsonb(min(o.recorded_at)) #>> '{}' AS entered_at,
      count(*)::int AS answers, (count(*) FILTER (WHERE o.verdict = 'fail'))::int AS failing,
      (SELECT s.person_id FROM fact.signature s WHERE s.facility_id = c.facility_id AND s.check_id = c.id AND s.meaning = 'performed') AS signed_by
    FROM fact.observation o
    JOIN fact.check_run c ON c.facility_id = o.facility_id AND c.id = o.check_id
    JOIN workstation w ON w.facility_id = c.facility_id AND w.id = c.workstation_id
    LEFT JOIN room r ON r.facility_id = c.facility_id AND r.id = c.room_id
    WHERE o.facility_id = ${facilityId}::uuid AND o.known ->> 'source' = 'paper' AND o.recorded_at > ${timestampOf(since)}::timestamptz
    GROUP BY c.facility_id, c.id, c.kind, w.tag, r.name, c.started_by ORDER BY min(o.recorded_at) DESC, c.id`;
}
