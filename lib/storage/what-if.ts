import type { FittedCylinder } from "@/lib/domain/evidence";
import type { Tx } from "@/lib/storage/client";
import { fittedOf } from "@/lib/storage/evidence-assemble";
import type { CylinderRow } from "@/lib/storage/evidence-rows";
import type { LocalDate } from "@/lib/units/time";

/** The full oxygen cylinders in the stores that are in date. */
export async function fullOxygenInStore(
  tx: Tx,
  facilityId: string,
  today: LocalDate,
): Promise<readonly FittedCylinder[]> {
  const [row] = await tx.$queryRaw<{ cylinders: CylinderRow[] }[]>`
    SELECT coalesce(json_agg(x), '[]') AS cylinders FROM (
      SELECT 'store' AS workstation_id, s.name AS position, '1970-01-01T00:00:00Z' AS "from", c.id, c.serial, c.gas, c.scheme, c.size,
        c.water_capacity_l, c.rated_contents_l, c.rated_pressure, c.rated_pressure_unit, c.expiry, c.retest_due
      FROM cylinder c JOIN store s ON s.facility_id = c.facility_id AND s.id = c.store_id
      WHERE c.facility_id = ${facilityId}::uuid AND c.gas = 'oxygen' AND c.contents = 'full' AND (c.expiry IS NULL OR c.expiry >= ${today}::date)
        AND NOT EXISTS (SELECT FROM fact.fitting t WHERE t.facility_id = c.facility_id AND t.item_id = c.id AND t."to" IS NULL)
      ORDER BY c.serial) x`;
  const rows = { cylinders: row?.cylinders ?? [], vaporizers: [], absorbent: [], sensors: [] };
  return fittedOf("store", rows).cylinders;
}
