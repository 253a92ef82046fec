import type { Department, DepartmentRead, DepartmentRecords } from "@/lib/domain/department/model";
import type { Scope, Tx } from "@/lib/storage/client";

/** What has to be known of a department besides its own rows: which lists and user ids the files speak of. */
export interface Asked {
  readonly dates: readonly string[];
  readonly userIds: readonly string[];
}

export const askedBy = ({ rows }: DepartmentRead): Asked => ({
  dates: [...new Set(rows.list.map(({ date }) => date))],
  userIds: [...new Set(rows.people.map(({ userId }) => userId))],
});

interface DepartmentJson {
  readonly records: DepartmentRecords;
  readonly roomsInUse: string[];
  readonly userIdsTaken: string[];
}

/**
 * The whole department in one statement and so from one snapshot, in the shape that an import compares its rows with.
 * Dates come as text, and lists in one order.
 */
export async function loadDepartment(tx: Tx, { facilityId, organisationId }: Scope, asked: Asked): Promise<Department> {
  const [row] = await tx.$queryRaw<{ department: DepartmentJson }[]>`
    WITH f AS (SELECT ${facilityId}::uuid AS id, ${organisationId}::uuid AS organisation),
    fitted AS (
      SELECT t.item_id, json_build_object('workstationId', t.workstation_id, 'position', t.position) AS place
      FROM fact.fitting t, f WHERE t.facility_id = f.id AND t."to" IS NULL)
    SELECT json_build_object(
      'records', json_build_object(
        'suites', (SELECT coalesce(json_agg(json_build_object('id', x.id, 'name', x.name, 'walkingOrder', x.walking_order)), '[]') FROM suite x, f WHERE x.facility_id = f.id),
        'zones', (SELECT coalesce(json_agg(json_build_object('id', x.id, 'name', x.name)), '[]') FROM pipeline_zone x, f WHERE x.facility_id = f.id),
        'stores', (SELECT coalesce(json_agg(json_build_object('id', x.id, 'name', x.name, 'suiteId', x.suite_id, 'walkingOrder', x.walking_order)), '[]') FROM store x, f WHERE x.facility_id = f.id),
        'rooms', (SELECT coalesce(json_agg(json_build_object('id', x.id, 'name', x.name, 'suiteId', x.suite_id, 'zoneId', x.zone_id,
            'piped', ARRAY(SELECT unnest(x.piped) ORDER BY 1), 'vacuum', x.vacuum, 'wasteGas', x.waste_gas, 'walkingOrder', x.walking_order)), '[]')
          FROM room x, f WHERE x.facility_id = f.id),
        'models', (SELECT coalesce(json_agg(json_build_object('id', x.id, 'name', x.name, 'maker', x.maker, 'document', x.document)), '[]')
          FROM workstation_model x, f WHERE x.organisation_id = f.organisation),
        'workstations', (SELECT coalesce(json_agg(json_build_object('id', x.id, 'tag', x.tag, 'serial', x.serial, 'modelId', x.model_id,
            'roomId', p.room_id, 'storeId', p.store_id)), '[]')
          FROM f JOIN workstation x ON x.facility_id = f.id
          LEFT JOIN fact.placement p ON p.facility_id = x.facility_id AND p.workstation_id = x.id AND p."to" IS NULL),
        'cylinders', (SELECT coalesce(json_agg(json_build_object('id', x.id, 'serial', x.serial, 'gas', x.gas, 'scheme', x.scheme, 'size', x.size,
            'waterCapacityL', x.water_capacity_l, 'ratedContentsL', x.rated_contents_l, 'ratedPressure', x.rated_pressure,
            'ratedPressureUnit', x.rated_pressure_unit, 'expiry', x.expiry::text, 'retestDue', x.retest_due::text, 'contents', x.contents,
            'storeId', x.store_id, 'fitted', (SELECT t.place FROM fitted t WHERE t.item_id = x.id))), '[]')
          FROM cylinder x, f WHERE x.facility_id = f.id),
        'vaporizers', (SELECT coalesce(json_agg(json_build_object('id', x.id, 'tag', x.tag, 'agent', x.agent, 'filler', x.filler,
            'calibrationDue', x.calibration_due::text, 'windowTo', x.calibration_window_to::text,
            'storeId', x.store_id, 'fitted', (SELECT t.place FROM fitted t WHERE t.item_id = x.id))), '[]')
          FROM vaporizer x, f WHERE x.facility_id = f.id),
        'absorbent', (SELECT coalesce(json_agg(json_build_object('id', x.id, 'tag', x.tag, 'product', x.product, 'indicator', x.indicator,
            'reverts', x.reverts, 'strongBase', x.strong_base, 'litresPer100g', x.litres_per_100g, 'massG', x.mass_g,
            'storeId', x.store_id, 'fitted', (SELECT t.place FROM fitted t WHERE t.item_id = x.id))), '[]')
          FROM absorbent x, f WHERE x.facility_id = f.id),
        'sensors', (SELECT coalesce(json_agg(json_build_object('id', x.id, 'tag', x.tag, 'kind', x.kind,
            'storeId', x.store_id, 'fitted', (SELECT t.place FROM fitted t WHERE t.item_id = x.id))), '[]')
          FROM oxygen_sensor x, f WHERE x.facility_id = f.id),
        'service', (SELECT coalesce(json_agg(json_build_object('workstationId', x.workstation_id, 'plan', x.plan, 'due', x.due::text,
            'windowFrom', x.window_from::text, 'windowTo', x.window_to::text)), '[]')
          FROM service_plan x, f WHERE x.facility_id = f.id),
        'people', (SELECT coalesce(json_agg(json_build_object('id', x.id, 'userId', x.user_id, 'name', x.name,
            'roles', ARRAY(SELECT r.role FROM person_role r WHERE r.facility_id = f.id AND r.person_id = x.id ORDER BY r.role))), '[]')
          FROM person x, f WHERE x.organisation_id = f.organisation),
        'list', (SELECT coalesce(json_agg(json_build_object('roomId', x.room_id, 'date', x.date::text, 'firstCase', x.first_case, 'ends', x.ends_at,
            'needs', ARRAY(SELECT unnest(x.needs) ORDER BY 1), 'setUpMinutes', x.set_up_minutes)), '[]')
          FROM day_list x, f WHERE x.facility_id = f.id AND x.date = ANY (${[...asked.dates]}::date[]))),
      'roomsInUse', ARRAY(SELECT o.room_id FROM fact.occupancy o, f WHERE o.facility_id = f.id AND o.state = 'in-use' AND o."to" IS NULL),
      'userIdsTaken', ARRAY(SELECT u FROM unnest(${[...asked.userIds]}::text[]) u WHERE user_id_taken(u)
        AND NOT EXISTS (SELECT FROM person p, f WHERE p.organisation_id = f.organisation AND p.user_id = u))) AS department`;
  if (!row) throw new Error(`facility ${facilityId} gave no department`);
  return row.department;
}
