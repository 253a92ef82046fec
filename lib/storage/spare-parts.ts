import type { Agent } from "@/lib/domain/vocabulary";
import type { Tx } from "@/lib/storage/client";

interface Place {
  readonly id: string;
  readonly name: string;
}

export interface SpareParts {
  readonly vaporizers: readonly {
    readonly id: string;
    readonly tag: string;
    readonly agent: Agent;
    readonly filler: string;
    readonly calibrationDue: string | null;
    readonly store: Place | null;
    readonly fittedTo: {
      readonly workstationId: string;
      readonly tag: string;
      readonly roomName: string | null;
      readonly mount: string;
      readonly inUse: boolean;
    } | null;
  }[];
  readonly absorbent: readonly {
    readonly id: string;
    readonly tag: string;
    readonly product: string;
    readonly massG: number;
    readonly store: Place | null;
  }[];
  readonly oxygenSensors: readonly {
    readonly id: string;
    readonly tag: string;
    readonly kind: string;
    readonly store: Place | null;
  }[];
}

/** What could be fitted to a workstation: parts in stores, and vaporizers that sit on it or on another one. */
export async function sparePartsOf(tx: Tx, facilityId: string, sensorKind: string): Promise<SpareParts> {
  const [row] = await tx.$queryRaw<SpareParts[]>`
    WITH f AS (SELECT ${facilityId}::uuid AS id)
    SELECT
      (SELECT coalesce(json_agg(x ORDER BY x.agent, x.tag), '[]') FROM (
        SELECT v.id, v.tag, v.agent, v.filler, v.calibration_due AS "calibrationDue",
          CASE WHEN s.id IS NULL THEN NULL ELSE json_build_object('id', s.id, 'name', s.name) END AS store,
          CASE WHEN w.id IS NULL THEN NULL ELSE json_build_object('workstationId', w.id, 'tag', w.tag, 'roomName', r.name, 'mount', t.position,
            'inUse', EXISTS (SELECT FROM fact.occupancy o WHERE o.facility_id = r.facility_id AND o.room_id = r.id AND o.state = 'in-use' AND o."to" IS NULL)) END AS "fittedTo"
        FROM f JOIN vaporizer v ON v.facility_id = f.id
        LEFT JOIN store s ON s.facility_id = v.facility_id AND s.id = v.store_id
        LEFT JOIN fact.fitting t ON t.facility_id = v.facility_id AND t.item_id = v.id AND t."to" IS NULL
        LEFT JOIN workstation w ON w.facility_id = t.facility_id AND w.id = t.workstation_id
        LEFT JOIN fact.placement p ON p.facility_id = w.facility_id AND p.workstation_id = w.id AND p."to" IS NULL
        LEFT JOIN room r ON r.facility_id = p.facility_id AND r.id = p.room_id) x) AS vaporizers,
      (SELECT coalesce(json_agg(x ORDER BY x.product, x.tag), '[]') FROM (
        SELECT a.id, a.tag, a.product, a.mass_g AS "massG", json_build_object('id', s.id, 'name', s.name) AS store
        FROM f JOIN absorbent a ON a.facility_id = f.id JOIN store s ON s.facility_id = a.facility_id AND s.id = a.store_id) x) AS absorbent,
      (SELECT coalesce(json_agg(x ORDER BY x.tag), '[]') FROM (
        SELECT o.id, o.tag, o.kind, json_build_object('id', s.id, 'name', s.name) AS store
        FROM f JOIN oxygen_sensor o ON o.facility_id = f.id AND o.kind = ${sensorKind} JOIN store s ON s.facility_id = o.facility_id AND s.id = o.store_id) x) AS "oxygenSensors"`;
  return row ?? { vaporizers: [], absorbent: [], oxygenSensors: [] };
}

export interface StockLine {
  readonly key: string;
  readonly store: string;
  readonly count: number;
}

/** How many of each thing stand in which store: cylinders that are not empty and in date, absorbent by product, sensors by kind. */
export async function stockLines(tx: Tx, facilityId: string, today: string): Promise<StockLine[]> {
  return tx.$queryRaw<StockLine[]>`
    SELECT i.key, s.name AS store, count(*)::int AS count FROM (
      SELECT 'cylinder:' || c.gas || ':' || c.size AS key, c.store_id FROM cylinder c
      WHERE c.facility_id = ${facilityId}::uuid AND c.contents <> 'empty' AND (c.expiry IS NULL OR c.expiry >= ${today}::date)
      UNION ALL
      SELECT 'absorbent:' || a.product, a.store_id FROM absorbent a WHERE a.facility_id = ${facilityId}::uuid
      UNION ALL
      SELECT 'oxygen-sensor:' || o.kind, o.store_id FROM oxygen_sensor o WHERE o.facility_id = ${facilityId}::uuid) i
    JOIN store s ON s.facility_id = ${facilityId}::uuid AND s.id = i.store_id
    GROUP BY i.key, s.name ORDER BY s.name`;
}
