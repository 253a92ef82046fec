import type { Readiness, Severity } from "@/lib/domain/judgement";
import type { Stood } from "@/lib/domain/readiness-log";
import type { Tx } from "@/lib/storage/client";
import { type Instant, instantOf, timestampOf } from "@/lib/units/time";

interface ChangeRow {
  readonly room_id: string;
  readonly at: Date;
  readonly state: Readiness;
  readonly startable: boolean;
  readonly reasons: readonly { rule: string; severity: Severity; subjectId: string; text: string }[];
}

/**
 * How each room stood between two instants, from the log of changes: the last change before the first instant, and every one
 * after it. Rooms that were never judged are not in the answer.
 */
export async function roomsStood(
  tx: Tx,
  facilityId: string,
  from: Instant,
  to: Instant,
): Promise<ReadonlyMap<string, readonly Stood[]>> {
  const rows = await tx.$queryRaw<ChangeRow[]>`
    WITH f AS (SELECT ${facilityId}::uuid AS id, ${timestampOf(from)}::timestamptz AS since, ${timestampOf(to)}::timestamptz AS until),
    chosen AS (
      SELECT c.id, c.holder_id, c.at, c.state, c.judgement FROM room r, f CROSS JOIN LATERAL (
        SELECT * FROM derived.readiness_change c WHERE c.facility_id = f.id AND c.holder_id = r.id AND c.holder_kind = 'room' AND c.at <= f.since
        ORDER BY c.at DESC, c.id DESC LIMIT 1) c
      WHERE r.facility_id = f.id
      UNION ALL
      SELECT c.id, c.holder_id, c.at, c.state, c.judgement FROM derived.readiness_change c, f
      WHERE c.facility_id = f.id AND c.holder_kind = 'room' AND c.at > f.since AND c.at < f.until)
    SELECT c.holder_id AS room_id, c.at, c.state,
      (c.state = 'ready' OR (c.state = 'ready-limited' AND (c.judgement->>'readyForList')::boolean AND NOT EXISTS (
        SELECT FROM jsonb_array_elements(c.judgement->'reasons') x WHERE x->>'severity' = 'limits' AND x->>'allowedUntil' IS NULL))) AS startable,
      (SELECT coalesce(json_agg(json_build_object('rule', x->>'rule', 'severity', x->>'severity', 'subjectId', x#>>'{subject,id}', 'text', x->>'text')), '[]')
       FROM jsonb_array_elements(c.judgement->'reasons') x) AS reasons
    FROM chosen c ORDER BY c.holder_id, c.at, c.id`;
  return stretches(rows);
}

/** The rooms that were not retired before an instant, with their names, in walking order. */
export function roomsSince(tx: Tx, facilityId: string, since: Instant): Promise<{ id: string; name: string }[]> {
  return tx.$queryRaw<{ id: string; name: string }[]>`
    SELECT r.id, r.name FROM room r JOIN suite s ON s.facility_id = r.facility_id AND s.id = r.suite_id
    WHERE r.facility_id = ${facilityId}::uuid AND (r.retired_at IS NULL OR r.retired_at > ${timestampOf(since)}::timestamptz)
    ORDER BY s.walking_order, r.walking_order, r.name`;
}

/** Each change holds until the next one of the same room. */
function stretches(rows: readonly ChangeRow[]): ReadonlyMap<string, readonly Stood[]> {
  const rooms = new Map<string, Stood[]>();
  rows.forEach(({ room_id, at, state, startable, reasons }, place) => {
    const next = rows[place + 1];
    const to = next?.room_id === room_id ? instantOf(next.at.toISOString()) : null;
    const stood: Stood = { from: instantOf(at.toISOString()), to, state, startable, reasons };
    rooms.set(room_id, [...(rooms.get(room_id) ?? []), stood]);
  });
  return rooms;
}
