import type { DeviceKnown } from "@/lib/domain/device/model";
import type { Database, Scope, Tx } from "@/lib/storage/client";
import { type Instant, type Timestamp, timestampOf } from "@/lib/units/time";

export interface StoredDevice extends DeviceKnown {
  readonly registeredBy: string;
  readonly registeredAt: Timestamp;
  readonly revokedBy: string | null;
  readonly revokedAt: Timestamp | null;
  readonly lastSeenAt: Timestamp | null;
}

/** The facility's wall devices, those in use first. */
export async function wallDevices(tx: Tx, facilityId: string): Promise<StoredDevice[]> {
  const [row] = await tx.$queryRaw<{ devices: StoredDevice[] }[]>`
    SELECT coalesce(json_agg(x), '[]') AS devices FROM (
      SELECT d.id, d.name, d.revoked_at IS NOT NULL AS revoked, p.name AS "registeredBy", q.name AS "revokedBy",
        to_char(d.registered_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "registeredAt",
        to_char(d.revoked_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "revokedAt",
        to_char(d.last_seen_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "lastSeenAt"
      FROM wall_device d JOIN person p ON p.id = d.registered_by LEFT JOIN person q ON q.id = d.revoked_by
      WHERE d.facility_id = ${facilityId}::uuid ORDER BY d.revoked_at IS NOT NULL, d.name, d.registered_at) x`;
  return row?.devices ?? [];
}

/** False when the name or the code is taken. */
export async function insertDevice(
  tx: Tx,
  facilityId: string,
  device: {
    readonly id: string;
    readonly name: string;
    readonly codeHash: string;
    readonly by: string;
    readonly at: Instant;
  },
): Promise<boolean> {
  const inserted = await tx.$executeRaw`
    INSERT INTO wall_device (facility_id, id, name, code_hash, registered_by, registered_at)
    VALUES (${facilityId}::uuid, ${device.id}::uuid, ${device.name}, ${device.codeHash}, ${device.by}::uuid, ${timestampOf(device.at)}::timestamptz)
    ON CONFLICT DO NOTHING`;
  return inserted === 1;
}

/** Ends a device on every instance at once: what it reads is ended by the same word as a session. */
export async function revokeDevice(tx: Tx, facilityId: string, id: string, by: string, at: Instant): Promise<boolean> {
  const revoked = await tx.$executeRaw`
    UPDATE wall_device SET revoked_at = ${timestampOf(at)}::timestamptz, revoked_by = ${by}::uuid
    WHERE facility_id = ${facilityId}::uuid AND id = ${id}::uuid AND revoked_at IS NULL`;
  await tx.$queryRaw`SELECT pg_notify('yokeboard', ${JSON.stringify({ session: id })})::text AS sent`;
  return revoked === 1;
}

export interface FoundDevice extends Scope {
  readonly deviceId: string;
  readonly name: string;
}

/** The device behind a code's hash, or with an id; null for one that nobody registered, or that was revoked. */
export async function findDevice(
  database: Database,
  by: { readonly codeHash: string } | { readonly deviceId: string },
): Promise<FoundDevice | null> {
  const codeHash = "codeHash" in by ? by.codeHash : null;
  const deviceId = "deviceId" in by ? by.deviceId : null;
  const [row] = await database.withoutScope(
    (tx) => tx.$queryRaw<FoundDevice[]>`
      SELECT device_id AS "deviceId", name, organisation_id AS "organisationId", facility_id AS "facilityId" FROM find_wall_device(${codeHash}::text, ${deviceId}::uuid)`,
  );
  return row ?? null;
}

export async function deviceSeen(database: Database, deviceId: string, at: Instant): Promise<void> {
  await database.withoutScope(
    (tx) => tx.$queryRaw`SELECT wall_device_seen(${deviceId}::uuid, ${timestampOf(at)}::timestamptz)::text AS seen`,
  );
}
