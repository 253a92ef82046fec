import type { Readiness } from "@/lib/domain/judgement";
import type { Role } from "@/lib/domain/vocabulary";
import type { Tx } from "@/lib/storage/client";
import { type Instant, instantOf, type LocalDate, type Timestamp, timestampOf } from "@/lib/units/time";

export interface EmergencyUse {
  readonly id: string;
  readonly occupancyId: string;
  readonly roomId: string;
  readonly workstationId: string | null;
  readonly reason: string;
  /** What the room said at that moment. */
  readonly state: Readiness;
  readonly why: string;
  readonly by: string;
  readonly role: Role;
  readonly at: Instant;
}

export async function insertEmergencyUse(tx: Tx, facilityId: string, use: EmergencyUse): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO fact.emergency_use (facility_id, id, occupancy_id, room_id, workstation_id, reason, state, why, by, role, at)
    VALUES (${facilityId}::uuid, ${use.id}::uuid, ${use.occupancyId}::uuid, ${use.roomId}::uuid, ${use.workstationId}::uuid, ${use.reason},
      ${use.state}, ${use.why}, ${use.by}::uuid, ${use.role}, ${timestampOf(use.at)}::timestamptz)`;
}

export interface EmergencyRecord {
  readonly id: string;
  readonly roomName: string;
  readonly workstationTag: string | null;
  readonly name: string;
  readonly role: Role;
  readonly reason: string;
  readonly state: Readiness;
  readonly why: string;
  readonly at: Timestamp;
  readonly endedAt: Timestamp | null;
  readonly checkedSince: boolean;
}

/** Cases that began in rooms that might not start, newest first, with whether the check owed afterwards was signed. */
export async function emergencyUses(
  tx: Tx,
  facilityId: string,
  timeZone: string,
  from: LocalDate,
  to: LocalDate,
): Promise<EmergencyRecord[]> {
  type Row = Omit<EmergencyRecord, "at" | "endedAt"> & { at: string; endedAt: string | null };
  const [row] = await tx.$queryRaw<{ uses: Row[] }[]>`
    SELECT coalesce(json_agg(x), '[]') AS uses FROM (
      SELECT e.id, r.name AS "roomName", w.tag AS "workstationTag", p.name, e.role, e.reason, e.state, e.why, e.at, o."to" AS "endedAt",
        EXISTS (SELECT FROM fact.check_run c JOIN fact.signature g ON g.facility_id = c.facility_id AND g.check_id = c.id AND g.meaning = 'performed'
                WHERE c.facility_id = e.facility_id AND c.workstation_id = e.workstation_id AND c.kind IN ('daily', 'first-user') AND c.started_at > e.at) AS "checkedSince"
      FROM fact.emergency_use e JOIN room r ON r.facility_id = e.facility_id AND r.id = e.room_id JOIN person p ON p.id = e.by
      JOIN fact.occupancy o ON o.facility_id = e.facility_id AND o.id = e.occupancy_id
      LEFT JOIN workstation w ON w.facility_id = e.facility_id AND w.id = e.workstation_id
      WHERE e.facility_id = ${facilityId}::uuid
        AND (e.at AT TIME ZONE ${timeZone})::date BETWEEN ${from}::date AND ${to}::date
      ORDER BY e.at DESC, e.id) x`;
  const utc = (text: string) => timestampOf(instantOf(text));
  return (row?.uses ?? []).map((use) => ({
    ...use,
    at: utc(use.at),
    endedAt: use.endedAt === null ? null : utc(use.endedAt),
  }));
}
