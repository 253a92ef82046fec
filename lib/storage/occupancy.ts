import type { Tx } from "@/lib/storage/client";
import { type Instant, timestampOf } from "@/lib/units/time";

/** "Closed today" ends with its check day by itself; the row is ended when the room next changes. */
async function endPastClosing(tx: Tx, facilityId: string, roomId: string, today: Instant): Promise<void> {
  await tx.$executeRaw`
    UPDATE fact.occupancy SET "to" = ${timestampOf(today)}::timestamptz
    WHERE facility_id = ${facilityId}::uuid AND room_id = ${roomId}::uuid AND state = 'closed' AND "to" IS NULL AND "from" < ${timestampOf(today)}::timestamptz`;
}

/** False when the room is in use or closed already. `today` is the start of the check day. */
export async function beginOccupancy(
  tx: Tx,
  facilityId: string,
  occupancy: {
    readonly id: string;
    readonly roomId: string;
    readonly state: "in-use" | "closed";
    readonly by: string;
    readonly at: Instant;
    readonly today: Instant;
  },
): Promise<boolean> {
  await endPastClosing(tx, facilityId, occupancy.roomId, occupancy.today);
  const inserted = await tx.$executeRaw`
    INSERT INTO fact.occupancy (facility_id, id, room_id, state, confirmed, by, "from")
    VALUES (${facilityId}::uuid, ${occupancy.id}::uuid, ${occupancy.roomId}::uuid, ${occupancy.state}, true, ${occupancy.by}::uuid, ${timestampOf(occupancy.at)}::timestamptz)
    ON CONFLICT DO NOTHING`;
  return inserted === 1;
}

/** False when the room was not in that state. */
export async function endOccupancy(
  tx: Tx,
  facilityId: string,
  roomId: string,
  state: "in-use" | "closed",
  at: Instant,
): Promise<boolean> {
  const ended = await tx.$executeRaw`
    UPDATE fact.occupancy SET "to" = greatest(${timestampOf(at)}::timestamptz, "from")
    WHERE facility_id = ${facilityId}::uuid AND room_id = ${roomId}::uuid AND state = ${state} AND "to" IS NULL`;
  return ended === 1;
}
