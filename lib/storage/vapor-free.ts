import type { Tx } from "@/lib/storage/client";
import { type Instant, instantOf, type LocalDate, timestampOf } from "@/lib/units/time";

export interface VaporFreeRequest {
  readonly id: string;
  readonly roomId: string;
  readonly neededAt: Instant;
  readonly note: string | null;
  readonly byName: string;
}

/** What was asked for from a check day on and not withdrawn, the earliest first. */
export async function openRequests(tx: Tx, facilityId: string, from: LocalDate): Promise<VaporFreeRequest[]> {
  const rows = await tx.$queryRaw<
    { id: string; room_id: string; needed_at: Date; note: string | null; by_name: string }[]
  >`
    SELECT v.id, v.room_id, v.needed_at, v.note, p.name AS by_name FROM fact.vapor_free_request v JOIN person p ON p.id = v.by
    WHERE v.facility_id = ${facilityId}::uuid AND v.date >= ${from}::date AND v.withdrawn_at IS NULL ORDER BY v.needed_at, v.id`;
  return rows.map(({ id, room_id, needed_at, note, by_name }) => ({
    id,
    roomId: room_id,
    neededAt: instantOf(needed_at.toISOString()),
    note,
    byName: by_name,
  }));
}

export async function insertVaporFreeRequest(
  tx: Tx,
  facilityId: string,
  request: {
    readonly id: string;
    readonly roomId: string;
    readonly date: LocalDate;
    readonly neededAt: Instant;
    readonly note: string | null;
    readonly by: string;
    readonly at: Instant;
  },
): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO fact.vapor_free_request (facility_id, id, room_id, date, needed_at, note, by, at)
    VALUES (${facilityId}::uuid, ${request.id}::uuid, ${request.roomId}::uuid, ${request.date}::date, ${timestampOf(request.neededAt)}::timestamptz,
      ${request.note}, ${request.by}::uuid, ${timestampOf(request.at)}::timestamptz)`;
}

/** False when there is none, or it was withdrawn in the meantime. */
export async function withdrawRequest(
  tx: Tx,
  facilityId: string,
  request: { readonly id: string; readonly roomId: string; readonly by: string; readonly at: Instant },
): Promise<boolean> {
  const done = await tx.$executeRaw`
    UPDATE fact.vapor_free_request SET withdrawn_at = ${timestampOf(request.at)}::timestamptz, withdrawn_by = ${request.by}::uuid
    WHERE facility_id = ${facilityId}::uuid AND id = ${request.id}::uuid AND room_id = ${request.roomId}::uuid AND withdrawn_at IS NULL`;
  return done === 1;
}

/** When the last vaporizer came off a workstation; null when none ever did. */
export async function lastVaporizerOff(tx: Tx, facilityId: string, workstationId: string): Promise<Instant | null> {
  const [row] = await tx.$queryRaw<{ at: Date | null }[]>`
    SELECT max(t."to") AS at FROM fact.fitting t
    WHERE t.facility_id = ${facilityId}::uuid AND t.workstation_id = ${workstationId}::uuid AND t.item_kind = 'vaporizer'`;
  return row?.at ? instantOf(row.at.toISOString()) : null;
}
