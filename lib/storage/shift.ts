import type { Answer } from "@/lib/domain/answer";
import type { ItemId, SubjectKind } from "@/lib/domain/items";
import type { Tx } from "@/lib/storage/client";
import type { LeafRow } from "@/lib/storage/history";
import { type Instant, timestampOf } from "@/lib/units/time";

/** The history's leaves of some commands between two instants, oldest first. */
export async function leavesBetween(
  tx: Tx,
  facilityId: string,
  from: Instant,
  to: Instant,
  commands: readonly string[],
): Promise<LeafRow[]> {
  const rows = await tx.$queryRaw<{ sequence: bigint; body: string }[]>`
    SELECT l.sequence, l.body FROM history.leaf l
    WHERE l.facility_id = ${facilityId}::uuid AND l.at >= ${timestampOf(from)}::timestamptz AND l.at < ${timestampOf(to)}::timestamptz
      AND l.body::jsonb #>> '{entry,command}' = ANY (${[...commands]}::text[])
    ORDER BY l.sequence`;
  return rows.map(({ sequence, body }) => ({ sequence: Number(sequence), body }));
}

export interface FailedAnswer {
  readonly room: string;
  readonly subject_kind: SubjectKind;
  /** The yoke, mount or canister on which the part was that the answer is about. */
  readonly position: string | null;
  readonly item: ItemId;
  readonly answer: Answer;
  readonly name: string;
  readonly observed_at: string;
}

/** Answers that failed when they were given and that nobody took back, oldest first. */
export async function failedBetween(
  tx: Tx,
  facilityId: string,
  from: Instant,
  to: Instant,
): Promise<readonly FailedAnswer[]> {
  const [row] = await tx.$queryRaw<{ failed: FailedAnswer[] }[]>`
    SELECT coalesce(json_agg(x ORDER BY x.observed_at), '[]') AS failed FROM (
      SELECT coalesce(r.name, w.tag, '') AS room, o.item, o.answer, p.name, o.observed_at, o.subject_kind,
        (SELECT t.position FROM fact.fitting t WHERE t.facility_id = o.facility_id AND t.item_id::text = o.subject_id
           AND t."from" <= o.observed_at AND (t."to" IS NULL OR t."to" > o.observed_at) LIMIT 1) AS position
      FROM fact.observation o
      JOIN person p ON p.id = o.observed_by
      LEFT JOIN fact.check_run c ON c.facility_id = o.facility_id AND c.id = o.check_id
      LEFT JOIN room r ON r.facility_id = o.facility_id AND r.id = coalesce(o.room_id, c.room_id)
      LEFT JOIN workstation w ON w.facility_id = o.facility_id AND w.id = o.workstation_id
      WHERE o.facility_id = ${facilityId}::uuid AND o.verdict = 'fail'
        AND o.observed_at >= ${timestampOf(from)}::timestamptz AND o.observed_at < ${timestampOf(to)}::timestamptz
        AND NOT EXISTS (SELECT FROM fact.observation s WHERE s.facility_id = o.facility_id AND s.supersedes = o.id)) x`;
  return row?.failed ?? [];
}

export interface StandingHold {
  readonly tag: string;
  readonly place: string;
  readonly reason: string;
  readonly name: string;
  readonly at: string;
}

/** The holds that nobody has lifted yet, with where the workstation stands. */
export async function standingHolds(tx: Tx, facilityId: string): Promise<readonly StandingHold[]> {
  const [row] = await tx.$queryRaw<{ holds: StandingHold[] }[]>`
    SELECT coalesce(json_agg(x ORDER BY x.at), '[]') AS holds FROM (
      SELECT w.tag, coalesce(r.name, s.name, '') AS place, h.reason, p.name, h.at
      FROM fact.hold h JOIN person p ON p.id = h.by
      JOIN workstation w ON w.facility_id = h.facility_id AND w.id = h.workstation_id
      LEFT JOIN fact.placement q ON q.facility_id = h.facility_id AND q.workstation_id = h.workstation_id AND q."to" IS NULL
      LEFT JOIN room r ON r.facility_id = q.facility_id AND r.id = q.room_id
      LEFT JOIN store s ON s.facility_id = q.facility_id AND s.id = q.store_id
      WHERE h.facility_id = ${facilityId}::uuid AND h.lifted_at IS NULL) x`;
  return row?.holds ?? [];
}

export interface OpenFault {
  readonly tag: string;
  readonly place: string;
  readonly text: string;
  readonly wouldNotUse: boolean;
  readonly name: string;
  readonly at: string;
}

/** Faults in words that nobody has looked at yet, with where the workstation stands. */
export async function openFaults(tx: Tx, facilityId: string): Promise<readonly OpenFault[]> {
  const [row] = await tx.$queryRaw<{ faults: OpenFault[] }[]>`
    SELECT coalesce(json_agg(x ORDER BY x.at), '[]') AS faults FROM (
      SELECT w.tag, coalesce(r.name, s.name, '') AS place, u.text, u.would_not_use AS "wouldNotUse", p.name, u.at
      FROM fact.fault_report u JOIN person p ON p.id = u.by
      JOIN workstation w ON w.facility_id = u.facility_id AND w.id = u.workstation_id
      LEFT JOIN fact.placement q ON q.facility_id = u.facility_id AND q.workstation_id = u.workstation_id AND q."to" IS NULL
      LEFT JOIN room r ON r.facility_id = q.facility_id AND r.id = q.room_id
      LEFT JOIN store s ON s.facility_id = q.facility_id AND s.id = q.store_id
      WHERE u.facility_id = ${facilityId}::uuid AND u.looked_at IS NULL) x`;
  return row?.faults ?? [];
}
