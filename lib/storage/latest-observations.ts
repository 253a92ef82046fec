import type { Tx } from "@/lib/storage/client";

/**
 * derived.latest_observation keeps, for each item and subject, the newest failing answer that nobody took back, and the newest passing
 * one that was signed. The judge then sees what still stands without reading the history.
 */

/** After a slip was corrected: the failing answer before it, if there is one, stands again. */
export async function takeBackFailing(tx: Tx, facilityId: string, superseded: readonly string[]): Promise<void> {
  await tx.$executeRaw`
    WITH gone AS (
      DELETE FROM derived.latest_observation l
      WHERE l.facility_id = ${facilityId}::uuid AND l.verdict = 'fail' AND l.observation_id = ANY (${[...superseded]}::uuid[])
      RETURNING l.keeper_id, l.item, l.subject_id)
    INSERT INTO derived.latest_observation (facility_id, keeper_id, item, subject_id, verdict, observation_id, observed_at)
    SELECT ${facilityId}::uuid, g.keeper_id, g.item, g.subject_id, 'fail', o.id, o.observed_at
    FROM gone g CROSS JOIN LATERAL (
      SELECT f.id, f.observed_at FROM fact.observation f
      WHERE f.facility_id = ${facilityId}::uuid AND (f.workstation_id = g.keeper_id OR f.room_id = g.keeper_id)
        AND f.item = g.item AND f.subject_id = g.subject_id AND f.verdict = 'fail'
        AND NOT EXISTS (SELECT FROM fact.check_correction k WHERE k.facility_id = f.facility_id AND k.check_id = f.check_id)
        AND NOT EXISTS (SELECT FROM fact.observation n WHERE n.facility_id = f.facility_id AND (n.workstation_id = g.keeper_id OR n.room_id = g.keeper_id)
          AND n.item = f.item AND n.subject_id = f.subject_id AND n.supersedes = f.id)
      ORDER BY f.observed_at DESC, f.recorded_at DESC LIMIT 1) o
    ON CONFLICT (facility_id, keeper_id, item, subject_id, verdict)
    DO UPDATE SET observation_id = excluded.observation_id, observed_at = excluded.observed_at`;
}

/** After a check was moved to the right workstation: what stood before it on the wrong one stands again, failing and passing. */
export async function dropCorrected(tx: Tx, facilityId: string, checkId: string): Promise<void> {
  await tx.$executeRaw`
    WITH gone AS (
      DELETE FROM derived.latest_observation l USING fact.observation o
      WHERE l.facility_id = ${facilityId}::uuid AND o.facility_id = l.facility_id AND o.id = l.observation_id AND o.check_id = ${checkId}::uuid
      RETURNING l.keeper_id, l.item, l.subject_id, l.verdict)
    INSERT INTO derived.latest_observation (facility_id, keeper_id, item, subject_id, verdict, observation_id, observed_at)
    SELECT ${facilityId}::uuid, g.keeper_id, g.item, g.subject_id, g.verdict, o.id, o.observed_at
    FROM gone g CROSS JOIN LATERAL (
      SELECT f.id, f.observed_at FROM fact.observation f
      WHERE f.facility_id = ${facilityId}::uuid AND (f.workstation_id = g.keeper_id OR f.room_id = g.keeper_id)
        AND f.item = g.item AND f.subject_id = g.subject_id AND f.verdict = g.verdict
        AND NOT EXISTS (SELECT FROM fact.check_correction k WHERE k.facility_id = f.facility_id AND k.check_id = f.check_id)
        AND CASE WHEN g.verdict = 'fail'
          THEN NOT EXISTS (SELECT FROM fact.observation n WHERE n.facility_id = f.facility_id AND n.supersedes = f.id)
          ELSE EXISTS (SELECT FROM fact.signature s WHERE s.facility_id = f.facility_id AND s.check_id = f.check_id AND s.meaning = 'performed') END
      ORDER BY f.observed_at DESC, f.recorded_at DESC LIMIT 1) o
    ON CONFLICT (facility_id, keeper_id, item, subject_id, verdict)
    DO UPDATE SET observation_id = excluded.observation_id, observed_at = excluded.observed_at`;
}

/** The whole table again, from the facts alone. */
export async function rebuildLatest(tx: Tx, facilityId: string): Promise<void> {
  await tx.$executeRaw`DELETE FROM derived.latest_observation WHERE facility_id = ${facilityId}::uuid`;
  await tx.$executeRaw`
    INSERT INTO derived.latest_observation (facility_id, keeper_id, item, subject_id, verdict, observation_id, observed_at)
    SELECT DISTINCT ON (coalesce(o.workstation_id, o.room_id), o.item, o.subject_id, o.verdict)
      o.facility_id, coalesce(o.workstation_id, o.room_id), o.item, o.subject_id, o.verdict, o.id, o.observed_at
    FROM fact.observation o
    WHERE o.facility_id = ${facilityId}::uuid
      AND NOT EXISTS (SELECT FROM fact.check_correction k WHERE k.facility_id = o.facility_id AND k.check_id = o.check_id) AND (
      (o.verdict = 'fail' AND NOT EXISTS (
        SELECT FROM fact.observation n WHERE n.facility_id = o.facility_id AND n.supersedes = o.id))
      OR (o.verdict = 'pass' AND EXISTS (
        SELECT FROM fact.signature s WHERE s.facility_id = o.facility_id AND s.check_id = o.check_id AND s.meaning = 'performed')))
    ORDER BY coalesce(o.workstation_id, o.room_id), o.item, o.subject_id, o.verdict, o.observed_at DESC, o.recorded_at DESC`;
}
