import type { ModelRecord, SuiteRecord } from "@/lib/domain/department/model";
import type { RoomKnown, StoreKnown, WorkstationKnown } from "@/lib/domain/room/model";
import type { Scope, Tx } from "@/lib/storage/client";

/** The department's places and equipment as the set-up shows and changes them, with what hangs on each. */
export interface SetUpKnown {
  readonly suites: readonly SuiteRecord[];
  readonly zones: readonly { readonly id: string; readonly name: string }[];
  readonly stores: readonly StoreKnown[];
  readonly rooms: readonly RoomKnown[];
  readonly models: readonly ModelRecord[];
  readonly workstations: readonly WorkstationKnown[];
}

/** Two people who set up at the same time wait for each other here, so that no name is given twice. */
export async function lockSetUp(tx: Tx, facilityId: string): Promise<void> {
  await tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`set-up:${facilityId}`}, 0))::text AS locked`;
}

/** Everything in one statement and so from one snapshot; retired rooms and workstations are in it and say so. */
export async function loadSetUp(tx: Tx, { facilityId, organisationId }: Scope): Promise<SetUpKnown> {
  const [row] = await tx.$queryRaw<{ known: SetUpKnown }[]>`
    WITH f AS (SELECT ${facilityId}::uuid AS id, ${organisationId}::uuid AS organisation)
    SELECT json_build_object(
      'suites', (SELECT coalesce(json_agg(json_build_object('id', x.id, 'name', x.name, 'walkingOrder', x.walking_order) ORDER BY x.walking_order, x.name), '[]')
        FROM suite x, f WHERE x.facility_id = f.id),
      'zones', (SELECT coalesce(json_agg(json_build_object('id', x.id, 'name', x.name) ORDER BY x.name), '[]') FROM pipeline_zone x, f WHERE x.facility_id = f.id),
      'stores', (SELECT coalesce(json_agg(json_build_object('id', x.id, 'name', x.name, 'suiteId', x.suite_id, 'walkingOrder', x.walking_order) ORDER BY x.name), '[]')
        FROM store x, f WHERE x.facility_id = f.id),
      'rooms', (SELECT coalesce(json_agg(json_build_object('id', x.id, 'name', x.name, 'suiteId', x.suite_id, 'zoneId', x.zone_id, 'piped', x.piped,
          'vacuum', x.vacuum, 'wasteGas', x.waste_gas, 'walkingOrder', x.walking_order, 'retired', x.retired_at IS NOT NULL,
          'inUse', EXISTS (SELECT FROM fact.occupancy o WHERE o.facility_id = x.facility_id AND o.room_id = x.id AND o.state = 'in-use' AND o."to" IS NULL),
          'workstation', (SELECT w.tag FROM fact.placement p JOIN workstation w ON w.facility_id = p.facility_id AND w.id = p.workstation_id
            WHERE p.facility_id = x.facility_id AND p.room_id = x.id AND p."to" IS NULL)) ORDER BY s.walking_order, x.walking_order, x.name), '[]')
        FROM f JOIN room x ON x.facility_id = f.id JOIN suite s ON s.facility_id = x.facility_id AND s.id = x.suite_id),
      'models', (SELECT coalesce(json_agg(json_build_object('id', x.id, 'name', x.name, 'maker', x.maker, 'document', x.document) ORDER BY x.name), '[]')
        FROM workstation_model x, f WHERE x.organisation_id = f.organisation),
      'workstations', (SELECT coalesce(json_agg(json_build_object('id', x.id, 'tag', x.tag, 'serial', x.serial, 'modelId', x.model_id,
          'roomId', p.room_id, 'storeId', p.store_id, 'retired', x.retired_at IS NOT NULL,
          'parts', (SELECT coalesce(json_agg(json_build_object('kind', t.item_kind, 'itemId', t.item_id, 'position', t.position,
              'name', coalesce(c.serial, v.tag, a.tag, s.tag), 'gas', c.gas, 'agent', v.agent) ORDER BY t.item_kind, t.position), '[]')
            FROM fact.fitting t
            LEFT JOIN cylinder c ON c.facility_id = t.facility_id AND c.id = t.item_id
            LEFT JOIN vaporizer v ON v.facility_id = t.facility_id AND v.id = t.item_id
            LEFT JOIN absorbent a ON a.facility_id = t.facility_id AND a.id = t.item_id
            LEFT JOIN oxygen_sensor s ON s.facility_id = t.facility_id AND s.id = t.item_id
            WHERE t.facility_id = x.facility_id AND t.workstation_id = x.id AND t."to" IS NULL)) ORDER BY x.tag), '[]')
        FROM f JOIN workstation x ON x.facility_id = f.id
        LEFT JOIN fact.placement p ON p.facility_id = x.facility_id AND p.workstation_id = x.id AND p."to" IS NULL)) AS known`;
  if (!row) throw new Error(`facility ${facilityId} gave no set-up`);
  return row.known;
}
