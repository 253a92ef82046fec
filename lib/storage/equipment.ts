import type { Subject } from "@/lib/domain/items";
import type { EventKind, Gas } from "@/lib/domain/vocabulary";
import type { Tx } from "@/lib/storage/client";
import { type Instant, timestampOf } from "@/lib/units/time";

export interface CylinderRecord {
  readonly id: string;
  readonly serial: string;
  readonly gas: Gas;
  readonly size: string;
  readonly contents: string;
  readonly expiry: string | null;
  readonly store: string | null;
  /** The tag of the workstation it is fitted to, when it is. */
  readonly fittedTo: string | null;
}

/** A cylinder by its id or by the serial number on its label. */
export async function findCylinder(
  tx: Tx,
  facilityId: string,
  by: { readonly id: string } | { readonly serial: string },
): Promise<CylinderRecord | null> {
  const id = "id" in by ? by.id : null;
  const serial = "serial" in by ? by.serial : null;
  const [row] = await tx.$queryRaw<CylinderRecord[]>`
    SELECT c.id, c.serial, c.gas, c.size, c.contents, c.expiry::text AS expiry, s.name AS store,
      (SELECT w.tag FROM fact.fitting t JOIN workstation w ON w.facility_id = t.facility_id AND w.id = t.workstation_id
       WHERE t.facility_id = c.facility_id AND t.item_id = c.id AND t."to" IS NULL) AS "fittedTo"
    FROM cylinder c LEFT JOIN store s ON s.facility_id = c.facility_id AND s.id = c.store_id
    WHERE c.facility_id = ${facilityId}::uuid AND (c.id = ${id}::uuid OR lower(c.serial) = lower(${serial}::text))`;
  return row ?? null;
}

/** Spare cylinders of one gas that are not empty and not past their expiry: full ones first. */
export async function spareCylinders(tx: Tx, facilityId: string, gas: Gas, today: string): Promise<CylinderRecord[]> {
  return tx.$queryRaw<CylinderRecord[]>`
    SELECT c.id, c.serial, c.gas, c.size, c.contents, c.expiry::text AS expiry, s.name AS store, NULL AS "fittedTo"
    FROM cylinder c JOIN store s ON s.facility_id = c.facility_id AND s.id = c.store_id
    WHERE c.facility_id = ${facilityId}::uuid AND c.gas = ${gas} AND c.contents <> 'empty' AND (c.expiry IS NULL OR c.expiry >= ${today}::date)
      AND NOT EXISTS (SELECT FROM fact.fitting t WHERE t.facility_id = c.facility_id AND t.item_id = c.id AND t."to" IS NULL)
    ORDER BY (c.contents = 'full') DESC, c.serial LIMIT 200`;
}

/** Of these swaps, the ones whose gas no store has anything left of; one that takes off a cylinder nobody knows is not judged. */
export async function swapsWithoutSpare(
  tx: Tx,
  facilityId: string,
  swaps: readonly { readonly key: string; readonly cylinderId: string }[],
  today: string,
): Promise<ReadonlySet<string>> {
  if (swaps.length === 0) return new Set();
  const rows = await tx.$queryRaw<{ key: string }[]>`
    SELECT s.key FROM jsonb_to_recordset(${JSON.stringify(swaps)}::jsonb) AS s (key text, "cylinderId" uuid)
    JOIN cylinder old ON old.facility_id = ${facilityId}::uuid AND old.id = s."cylinderId"
    WHERE NOT EXISTS (
      SELECT FROM cylinder c WHERE c.facility_id = old.facility_id AND c.gas = old.gas AND c.scheme = old.scheme
        AND c.store_id IS NOT NULL AND c.contents <> 'empty' AND (c.expiry IS NULL OR c.expiry >= ${today}::date)
        AND NOT EXISTS (SELECT FROM fact.fitting t WHERE t.facility_id = c.facility_id AND t.item_id = c.id AND t."to" IS NULL))`;
  return new Set(rows.map(({ key }) => key));
}

export interface Fitting {
  readonly id: string;
  readonly kind: "cylinder" | "vaporizer" | "absorbent" | "oxygen-sensor";
  readonly itemId: string;
  readonly workstationId: string;
  readonly position: string;
}

/** False when the position or the item is taken: the exclusion constraints decide, whoever asks first. */
export async function insertFitting(tx: Tx, facilityId: string, fitting: Fitting, from: Instant): Promise<boolean> {
  const inserted = await tx.$executeRaw`
    INSERT INTO fact.fitting (facility_id, id, item_kind, item_id, workstation_id, position, "from")
    VALUES (${facilityId}::uuid, ${fitting.id}::uuid, ${fitting.kind}, ${fitting.itemId}::uuid, ${fitting.workstationId}::uuid, ${fitting.position}, ${timestampOf(from)}::timestamptz)
    ON CONFLICT DO NOTHING`;
  return inserted === 1;
}

export async function endFitting(tx: Tx, facilityId: string, itemId: string, to: Instant): Promise<boolean> {
  const ended = await tx.$executeRaw`
    UPDATE fact.fitting SET "to" = ${timestampOf(to)}::timestamptz WHERE facility_id = ${facilityId}::uuid AND item_id = ${itemId}::uuid AND "to" IS NULL`;
  return ended === 1;
}

/** Where a cylinder is kept and what it holds, after it was taken off or fitted. */
export async function moveCylinder(
  tx: Tx,
  facilityId: string,
  cylinderId: string,
  contents: string,
  storeId: string | null,
): Promise<void> {
  await tx.$executeRaw`
    UPDATE cylinder SET contents = ${contents}, store_id = ${storeId}::uuid WHERE facility_id = ${facilityId}::uuid AND id = ${cylinderId}::uuid`;
}

export async function findStore(tx: Tx, facilityId: string, storeId: string): Promise<string | null> {
  const [row] = await tx.$queryRaw<
    { id: string }[]
  >`SELECT id FROM store WHERE facility_id = ${facilityId}::uuid AND id = ${storeId}::uuid`;
  return row?.id ?? null;
}

/** The first store of the facility by name: where a cylinder goes when nobody says otherwise. */
export async function anyStore(tx: Tx, facilityId: string): Promise<string | null> {
  const [row] = await tx.$queryRaw<
    { id: string }[]
  >`SELECT id FROM store WHERE facility_id = ${facilityId}::uuid ORDER BY name LIMIT 1`;
  return row?.id ?? null;
}

export interface NewEvent {
  readonly id: string;
  readonly kind: EventKind;
  readonly subject: Subject;
  readonly workstationId: string | null;
  readonly roomId: string | null;
  readonly at: Instant;
  readonly by: string;
}

export async function insertEvent(tx: Tx, facilityId: string, event: NewEvent): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO fact.equipment_event (facility_id, id, kind, subject_kind, subject_id, workstation_id, room_id, at, by)
    VALUES (${facilityId}::uuid, ${event.id}::uuid, ${event.kind}, ${event.subject.kind}, ${event.subject.id}, ${event.workstationId}::uuid,
      ${event.roomId}::uuid, ${timestampOf(event.at)}::timestamptz, ${event.by}::uuid)`;
}
