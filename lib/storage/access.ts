import { type AccessSettings, accessOf } from "@/lib/domain/access/model";
import type { Tx } from "@/lib/storage/client";
import { type Instant, timestampOf } from "@/lib/units/time";

export async function accessSettings(
  tx: Tx,
  facilityId: string,
): Promise<{ readonly version: number; readonly settings: AccessSettings }> {
  const [row] = await tx.$queryRaw<{ version: number; document: Partial<AccessSettings> }[]>`
    SELECT version, document FROM access_settings WHERE facility_id = ${facilityId}::uuid`;
  return { version: row?.version ?? 0, settings: accessOf(row?.document ?? {}) };
}

/** False when somebody else has changed them since: the version that is replaced must be the one that was seen. */
export async function putAccessSettings(
  tx: Tx,
  facilityId: string,
  change: { readonly seen: number; readonly settings: AccessSettings; readonly by: string; readonly at: Instant },
): Promise<boolean> {
  const put = await tx.$executeRaw`
    INSERT INTO access_settings (facility_id, version, document, changed_at, changed_by)
    VALUES (${facilityId}::uuid, ${change.seen + 1}, ${JSON.stringify(change.settings)}::jsonb, ${timestampOf(change.at)}::timestamptz, ${change.by}::uuid)
    ON CONFLICT (facility_id) DO UPDATE
      SET version = excluded.version, document = excluded.document, changed_at = excluded.changed_at, changed_by = excluded.changed_by
      WHERE access_settings.version = ${change.seen}`;
  return put === 1;
}

export async function storePin(tx: Tx, personId: string, hash: string | null, at: Instant): Promise<void> {
  await tx.$queryRaw`SELECT store_pin(${personId}::uuid, ${hash}::text, ${timestampOf(at)}::timestamptz)::text`;
}

export async function pinOf(tx: Tx, personId: string): Promise<string | null> {
  const [row] = await tx.$queryRaw<{ hash: string | null }[]>`SELECT pin_of(${personId}::uuid) AS hash`;
  return row?.hash ?? null;
}
