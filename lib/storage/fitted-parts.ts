import { type Sql, sql } from "@/lib/storage/client";

/**
 * What is fitted to the workstations of `f`, one column a kind of part. `standing` says when: still there, or there at an instant;
 * fittings are intervals, so the past is asked the same way as the present.
 */
export const fittedParts = (standing: Sql): Sql => sql`
    (SELECT coalesce(json_agg(x), '[]') FROM (
      SELECT t.workstation_id, t.position, t."from", c.id, c.serial, c.gas, c.scheme, c.size, c.water_capacity_l, c.rated_contents_l,
        c.rated_pressure, c.rated_pressure_unit, c.expiry, c.retest_due
      FROM fact.fitting t JOIN cylinder c ON c.facility_id = t.facility_id AND c.id = t.item_id, f
      WHERE t.facility_id = f.id AND t.item_kind = 'cylinder' AND t.workstation_id = ANY (f.workstations) AND ${standing} ORDER BY t.position) x) AS cylinders,
    (SELECT coalesce(json_agg(x), '[]') FROM (
      SELECT t.workstation_id, t.position, t."from", v.id, v.tag, v.agent, v.filler, v.calibration_due, v.calibration_window_to
      FROM fact.fitting t JOIN vaporizer v ON v.facility_id = t.facility_id AND v.id = t.item_id, f
      WHERE t.facility_id = f.id AND t.item_kind = 'vaporizer' AND t.workstation_id = ANY (f.workstations) AND ${standing} ORDER BY t.position) x) AS vaporizers,
    (SELECT coalesce(json_agg(x), '[]') FROM (
      SELECT t.workstation_id, t.position, t."from", a.id, a.tag, a.product, a.indicator, a.reverts, a.strong_base, a.litres_per_100g, a.mass_g
      FROM fact.fitting t JOIN absorbent a ON a.facility_id = t.facility_id AND a.id = t.item_id, f
      WHERE t.facility_id = f.id AND t.item_kind = 'absorbent' AND t.workstation_id = ANY (f.workstations) AND ${standing} ORDER BY t.position) x) AS absorbent,
    (SELECT coalesce(json_agg(x), '[]') FROM (
      SELECT t.workstation_id, t."from", s.id, s.tag, s.kind
      FROM fact.fitting t JOIN oxygen_sensor s ON s.facility_id = t.facility_id AND s.id = t.item_id, f
      WHERE t.facility_id = f.id AND t.item_kind = 'oxygen-sensor' AND t.workstation_id = ANY (f.workstations) AND ${standing}) x) AS sensors`;
