import type { ModelRecord, RoomRecord, WorkstationRecord } from "@/lib/domain/department/model";
import type { PlaceAsked } from "@/lib/domain/room/model";
import type { Scope, Tx } from "@/lib/storage/client";
import { DEPARTMENT_TABLES, upsert } from "@/lib/storage/department-tables";
import { type Instant, timestampOf } from "@/lib/units/time";

export async function putPlace(tx: Tx, scope: Scope, id: string, place: PlaceAsked): Promise<void> {
  await upsert(tx, scope, DEPARTMENT_TABLES[`${place.kind}s`], [{ ...place, id }]);
  if (place.kind === "store")
    await tx.$executeRaw`
      UPDATE store SET suite_id = ${place.suiteId}::uuid, walking_order = ${place.walkingOrder}::int
      WHERE facility_id = ${scope.facilityId}::uuid AND id = ${id}::uuid`;
}

/** A room that was retired is back with this. */
export async function putRoom(tx: Tx, scope: Scope, room: RoomRecord): Promise<void> {
  await upsert(tx, scope, DEPARTMENT_TABLES.rooms, [room]);
  await tx.$executeRaw`
    UPDATE room SET retired_at = NULL WHERE facility_id = ${scope.facilityId}::uuid AND id = ${room.id}::uuid AND retired_at IS NOT NULL`;
}

/** False when another facility of the organisation took the name in the meantime. */
export async function putModel(tx: Tx, scope: Scope, model: ModelRecord, isNew: boolean): Promise<boolean> {
  const { id, name, maker, document } = model;
  const text = JSON.stringify(document);
  const written = isNew
    ? await tx.$executeRaw`
        INSERT INTO workstation_model (id, organisation_id, maker, name, document)
        VALUES (${id}::uuid, ${scope.organisationId}::uuid, ${maker}, ${name}, ${text}::jsonb) ON CONFLICT DO NOTHING`
    : await tx.$executeRaw`
        UPDATE workstation_model m SET maker = ${maker}, name = ${name}, document = ${text}::jsonb
        WHERE m.id = ${id}::uuid AND NOT EXISTS (
          SELECT FROM workstation_model o WHERE o.organisation_id = m.organisation_id AND o.name = ${name} AND o.id <> m.id)`;
  return written === 1;
}

export async function putWorkstation(
  tx: Tx,
  scope: Scope,
  workstation: Pick<WorkstationRecord, "id" | "tag" | "serial" | "modelId">,
): Promise<void> {
  await upsert(tx, scope, DEPARTMENT_TABLES.workstations, [workstation]);
  await tx.$executeRaw`
    UPDATE workstation SET retired_at = NULL
    WHERE facility_id = ${scope.facilityId}::uuid AND id = ${workstation.id}::uuid AND retired_at IS NOT NULL`;
}

/** A retired room or workstation is judged no more: its answer goes, its tasks close, and what was recorded stays. */
async function leaveBoard(tx: Tx, facilityId: string, holderId: string, at: Instant): Promise<void> {
  await tx.$executeRaw`
    WITH gone AS (DELETE FROM derived.readiness WHERE facility_id = ${facilityId}::uuid AND holder_id = ${holderId}::uuid),
    closed AS (
      UPDATE derived.task SET closed_at = ${timestampOf(at)}::timestamptz
      WHERE facility_id = ${facilityId}::uuid AND holder_id = ${holderId}::uuid AND closed_at IS NULL RETURNING key)
    UPDATE fact.claim c SET "to" = greatest(${timestampOf(at)}::timestamptz, c."from"), outcome = 'task-closed'
    FROM closed WHERE c.facility_id = ${facilityId}::uuid AND c.task_key = closed.key AND c."to" IS NULL`;
}

export async function retireRoom(tx: Tx, facilityId: string, roomId: string, at: Instant): Promise<void> {
  await tx.$executeRaw`UPDATE room SET retired_at = ${timestampOf(at)}::timestamptz WHERE facility_id = ${facilityId}::uuid AND id = ${roomId}::uuid`;
  await leaveBoard(tx, facilityId, roomId, at);
}

/** Its parts come off into a store, and it leaves the place where it stood. */
export async function retireWorkstation(
  tx: Tx,
  facilityId: string,
  workstationId: string,
  partsTo: string | null,
  at: Instant,
): Promise<void> {
  const now = timestampOf(at);
  if (partsTo !== null)
    await tx.$executeRaw`
      WITH off AS (
        UPDATE fact.fitting SET "to" = greatest(${now}::timestamptz, "from")
        WHERE facility_id = ${facilityId}::uuid AND workstation_id = ${workstationId}::uuid AND "to" IS NULL RETURNING item_id),
      cylinders AS (UPDATE cylinder c SET store_id = ${partsTo}::uuid FROM off WHERE c.facility_id = ${facilityId}::uuid AND c.id = off.item_id),
      vaporizers AS (UPDATE vaporizer v SET store_id = ${partsTo}::uuid FROM off WHERE v.facility_id = ${facilityId}::uuid AND v.id = off.item_id),
      charges AS (UPDATE absorbent a SET store_id = ${partsTo}::uuid FROM off WHERE a.facility_id = ${facilityId}::uuid AND a.id = off.item_id)
      UPDATE oxygen_sensor s SET store_id = ${partsTo}::uuid FROM off WHERE s.facility_id = ${facilityId}::uuid AND s.id = off.item_id`;
  await tx.$executeRaw`
    UPDATE fact.placement SET "to" = greatest(${now}::timestamptz, "from")
    WHERE facility_id = ${facilityId}::uuid AND workstation_id = ${workstationId}::uuid AND "to" IS NULL`;
  await tx.$executeRaw`UPDATE workstation SET retired_at = ${now}::timestamptz WHERE facility_id = ${facilityId}::uuid AND id = ${workstationId}::uuid`;
  await leaveBoard(tx, facilityId, workstationId, at);
}
