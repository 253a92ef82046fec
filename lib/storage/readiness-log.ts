import type { Judgement, Readiness, Severity } from "@/lib/domain/judgement";
import type { Stood } from "@/lib/domain/readiness-log";
import type { Tx } from "@/lib/storage/client";
import { type Instant, instantOf, timestampOf } from "@/lib/units/time";

interface ChangeRow {
  readonly room_id: string;
  readonly at: Date;
  readonly state: Readiness;
  readonly startable: boolean;
  readonly good_until: string | null;
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
    SELECT c.holder_id AS room_id, c.at, c.state, c.judgement->>'goodUntil' AS good_until,
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
  rows.forEach(({ room_id, at, state, startable, good_until, reasons }, place) => {
    const next = rows[place + 1];
    const to = next?.room_id === room_id ? instantOf(next.at.toISOString()) : null;
    const goodUntil = good_until === null ? null : instantOf(good_until);
    const stood: Stood = { from: instantOf(at.toISOString()), to, goodUntil, state, startable, reasons };
    rooms.set(room_id, [...(rooms.get(room_id) ?? []), stood]);
  });
  return rooms;
}

/** One line of the log, whole. */
export interface LoggedChange {
  readonly holderKind: "room" | "workstation";
  readonly holderId: string;
  readonly at: Instant;
  readonly judgement: Judgement;
  readonly cause: string;
  readonly settingsVersion: number;
  readonly engineVersion: number;
}

interface LoggedRow {
  holder_kind: LoggedChange["holderKind"];
  holder_id: string;
  at: Date;
  judgement: Judgement;
  cause: string;
  settings_version: number;
  engine_version: number;
}

const loggedOf = (row: LoggedRow): LoggedChange => ({
  holderKind: row.holder_kind,
  holderId: row.holder_id,
  at: instantOf(row.at.toISOString()),
  judgement: row.judgement,
  cause: row.cause,
  settingsVersion: row.settings_version,
  engineVersion: row.engine_version,
});

/** The last line of each room by a moment. */
export async function lastChanges(
  tx: Tx,
  facilityId: string,
  rooms: readonly string[],
  at: Instant,
): Promise<ReadonlyMap<string, LoggedChange>> {
  const rows = await tx.$queryRaw<LoggedRow[]>`
    SELECT c.holder_kind, c.holder_id, c.at, c.judgement, c.cause, c.settings_version, c.engine_version
    FROM unnest(${[...rooms]}::uuid[]) AS r(id) CROSS JOIN LATERAL (
      SELECT * FROM derived.readiness_change c WHERE c.facility_id = ${facilityId}::uuid AND c.holder_id = r.id AND c.holder_kind = 'room'
        AND c.at <= ${timestampOf(at)}::timestamptz ORDER BY c.at DESC, c.id DESC LIMIT 1) c`;
  return new Map(rows.map((row) => [row.holder_id, loggedOf(row)]));
}

/** Every line between two moments, in order: what a replay is held against. Of several at one moment of one holder the last one counts. */
export async function changesBetween(tx: Tx, facilityId: string, from: Instant, to: Instant): Promise<LoggedChange[]> {
  const rows = await tx.$queryRaw<LoggedRow[]>`
    SELECT DISTINCT ON (c.at, c.holder_id) c.holder_kind, c.holder_id, c.at, c.judgement, c.cause, c.settings_version, c.engine_version
    FROM derived.readiness_change c
    WHERE c.facility_id = ${facilityId}::uuid AND c.at >= ${timestampOf(from)}::timestamptz AND c.at < ${timestampOf(to)}::timestamptz
    ORDER BY c.at, c.holder_id, c.id DESC`;
  return rows.map(loggedOf);
}

/** When the facility's log begins; null before anything was judged. */
export async function logBegins(tx: Tx, facilityId: string): Promise<Instant | null> {
  const [row] = await tx.$queryRaw<{ at: Date | null }[]>`
    SELECT min(at) AS at FROM derived.readiness_change WHERE facility_id = ${facilityId}::uuid`;
  return row?.at ? instantOf(row.at.toISOString()) : null;
}

/** When rooms were in use or closed between two moments. */
export async function busyBetween(
  tx: Tx,
  facilityId: string,
  from: Instant,
  to: Instant,
): Promise<{ roomId: string; state: "in-use" | "closed"; from: Instant; to: Instant | null }[]> {
  const rows = await tx.$queryRaw<{ room_id: string; state: "in-use" | "closed"; from: Date; to: Date | null }[]>`
    SELECT o.room_id, o.state, o."from", o."to" FROM fact.occupancy o
    WHERE o.facility_id = ${facilityId}::uuid AND o."from" < ${timestampOf(to)}::timestamptz
      AND (o."to" IS NULL OR o."to" > ${timestampOf(from)}::timestamptz)
      AND (o.state = 'in-use' OR o."from" >= ${timestampOf(from)}::timestamptz)
    ORDER BY o."from"`;
  const at = (date: Date) => instantOf(date.toISOString());
  return rows.map((row) => ({ roomId: row.room_id, state: row.state, from: at(row.from), to: row.to && at(row.to) }));
}
