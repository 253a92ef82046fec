import type { Tx } from "@/lib/storage/client";
import type { EvidenceRows } from "@/lib/storage/evidence-rows";
import { NOW, type When } from "@/lib/storage/evidence-when";
import { fittedParts } from "@/lib/storage/fitted-parts";
import { DAY, HOUR, type Instant, type LocalDate, later, timestampOf } from "@/lib/units/time";

/** Everything since then is read whole: the running check day, the one before it, and a case that outlasts them. */
const WINDOW = 48 * HOUR;
/** How far back failures are counted; a site that counts over longer sees no further. */
const FAILURE_WINDOW = 31 * DAY;
/** What happened to the equipment is few rows, and one that nobody has answered yet must not age out of sight. */
const EVENT_WINDOW = 90 * DAY;

/**
 * The facts behind some rooms and workstations, in one statement and so from one snapshot.
 * Older answers come through derived.latest_observation, so the cost does not grow with the history.
 * `f` is not materialised, so that its values reach the indexes: as a joined row they would only filter a whole facility's rows.
 */
export async function queryEvidence(
  tx: Tx,
  facilityId: string,
  rooms: readonly string[],
  workstations: readonly string[],
  now: Instant,
  listDate: LocalDate,
  when: When = NOW,
): Promise<EvidenceRows> {
  const since = timestampOf(later(now, -WINDOW));
  const failuresSince = timestampOf(later(now, -FAILURE_WINDOW));
  const eventsSince = timestampOf(later(now, -EVENT_WINDOW));
  const [row] = await tx.$queryRaw<EvidenceRows[]>`
    WITH f AS NOT MATERIALIZED (SELECT ${facilityId}::uuid AS id, ${[...rooms]}::uuid[] AS rooms, ${[...workstations]}::uuid[] AS workstations, ${since}::timestamptz AS since),
    -- A check that says another workstation than the one looked at: its answers stand on the right one.
    elsewhere AS (SELECT k.check_id FROM fact.check_correction k, f WHERE k.facility_id = f.id ${when.correction}),
    answers AS (
      SELECT o.* FROM fact.observation o, f WHERE o.facility_id = f.id AND o.workstation_id = ANY (f.workstations) AND o.observed_at > f.since ${when.observation}
        AND NOT EXISTS (SELECT FROM elsewhere e WHERE e.check_id = o.check_id)
      UNION
      SELECT o.* FROM fact.observation o, f WHERE o.facility_id = f.id AND o.room_id = ANY (f.rooms) AND o.observed_at > f.since ${when.observation}
        AND NOT EXISTS (SELECT FROM elsewhere e WHERE e.check_id = o.check_id)
      UNION ${when.latest}),
    runs AS (
      SELECT c.* FROM fact.check_run c, f WHERE c.facility_id = f.id AND c.workstation_id = ANY (f.workstations) AND c.started_at > f.since ${when.run}
        AND NOT EXISTS (SELECT FROM elsewhere e WHERE e.check_id = c.id)
      UNION
      SELECT c.* FROM fact.check_run c, f WHERE c.facility_id = f.id AND c.room_id = ANY (f.rooms) AND c.started_at > f.since ${when.run}
        AND NOT EXISTS (SELECT FROM elsewhere e WHERE e.check_id = c.id)
      UNION
      SELECT c.* FROM fact.check_run c, f WHERE c.facility_id = f.id AND c.id IN (SELECT a.check_id FROM answers a))
    SELECT
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT r.id, r.name, s.name AS suite, z.name AS zone, r.piped, r.vacuum, r.waste_gas, r.walking_order,
          ${when.list(listDate)} AS list, ${when.closedByTemplate(listDate)} AS closed_by_template,
          (SELECT json_build_object('state', o.state, 'from', o."from", 'confirmed', o.confirmed)
           FROM fact.occupancy o WHERE o.facility_id = r.facility_id AND o.room_id = r.id AND ${when.occupancy}) AS occupancy
        FROM room r JOIN suite s ON s.facility_id = r.facility_id AND s.id = r.suite_id
        LEFT JOIN pipeline_zone z ON z.facility_id = r.facility_id AND z.id = r.zone_id, f
        WHERE r.facility_id = f.id AND r.id = ANY (f.rooms) AND ${when.room} ORDER BY r.id) x) AS rooms,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT w.id, w.tag, m.name AS model_name, m.document AS model, p.room_id, p.store_id
        FROM workstation w JOIN workstation_model m ON m.id = w.model_id
        LEFT JOIN fact.placement p ON p.facility_id = w.facility_id AND p.workstation_id = w.id AND ${when.placement}, f
        WHERE w.facility_id = f.id AND w.id = ANY (f.workstations) AND ${when.workstation} ORDER BY w.id) x) AS workstations,
      ${fittedParts(when.fitting)},
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT h.id, h.workstation_id, h.by, h.role, h.reason, h.at FROM fact.hold h, f
        WHERE h.facility_id = f.id AND h.workstation_id = ANY (f.workstations) AND ${when.hold} ORDER BY h.at, h.id) x) AS holds,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT q.id, q.workstation_id, q.text, q.would_not_use, q.at FROM fact.fault_report q, f
        WHERE q.facility_id = f.id AND q.workstation_id = ANY (f.workstations) AND ${when.fault} ORDER BY q.at, q.id) x) AS faults,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT o.workstation_id, o.item, o.subject_kind, o.subject_id, o.observed_at FROM fact.observation o, f
        WHERE o.facility_id = f.id AND o.workstation_id = ANY (f.workstations) AND o.verdict = 'fail'
          AND o.observed_at > ${failuresSince}::timestamptz AND o.observed_at <= f.since ${when.observation}
          AND NOT EXISTS (SELECT FROM elsewhere k WHERE k.check_id = o.check_id)
          AND NOT EXISTS (SELECT FROM fact.observation n WHERE n.facility_id = o.facility_id AND n.workstation_id = o.workstation_id
            AND n.item = o.item AND n.subject_id = o.subject_id AND n.supersedes = o.id ${when.newer})
        ORDER BY o.observed_at, o.id) x) AS failures,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT l.workstation_id, l.rule, l.person_id, l.role, l.measures, l.until FROM fact.limit_allowance l, f
        WHERE l.facility_id = f.id AND l.workstation_id = ANY (f.workstations) AND l.until > ${eventsSince}::timestamptz AND ${when.allowance} ORDER BY l.at, l.id) x) AS allowances,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT w.id AS workstation_id, coalesce(e.note, m.name) AS name, e.at FROM fact.department_event e
        JOIN workstation w ON w.facility_id = e.facility_id AND w.model_id = e.model_id JOIN workstation_model m ON m.id = e.model_id, f
        WHERE e.facility_id = f.id AND e.kind = 'recall' AND NOT e.drill AND ${when.recall} AND w.id = ANY (f.workstations) ORDER BY e.at, e.id) x) AS recalls,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT v.room_id, min(v.needed_at) AS needed_at FROM fact.vapor_free_request v, f
        WHERE v.facility_id = f.id AND v.room_id = ANY (f.rooms) AND v.date = ${listDate}::date AND ${when.vaporFree} GROUP BY v.room_id) x) AS vapor_free,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT p.workstation_id, p.plan, p.due, p.window_from, p.window_to FROM ${when.service} p, f
        WHERE p.facility_id = f.id AND p.workstation_id = ANY (f.workstations) ORDER BY p.due, p.plan) x) AS service,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT a.id, a.check_id, a.item, a.subject_kind, a.subject_id, a.workstation_id, a.room_id, a.answer, a.verdict, a.makers_verdict,
          a.observed_at, a.known, a.observed_by, a.observed_role, a.recorded_at, a.supersedes
        FROM answers a ORDER BY a.observed_at, a.id) x) AS observations,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT c.id, c.procedure_id, c.kind, c.workstation_id, c.room_id, c.started_at, c.started_by,
          (SELECT coalesce(json_agg(json_build_object('by', g.person_id, 'role', g.role, 'meaning', g.meaning, 'at', g.at) ORDER BY g.at), '[]')
           FROM fact.signature g WHERE g.facility_id = c.facility_id AND g.check_id = c.id ${when.signature}) AS signed
        FROM runs c ORDER BY c.started_at, c.id) x) AS checks,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT e.id, e.kind, e.subject_kind, e.subject_id, e.workstation_id, e.room_id, e.at,
          (SELECT z.name FROM pipeline_zone z WHERE z.facility_id = e.facility_id AND z.id = e.zone_id) AS zone
        FROM fact.equipment_event e, f WHERE e.facility_id = f.id AND e.at > ${eventsSince}::timestamptz ${when.event}
          AND (e.workstation_id = ANY (f.workstations) OR e.room_id = ANY (f.rooms)) ORDER BY e.at, e.id) x) AS events,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT DISTINCT ON (t.keeper_id, t.item, t.subject_id) t.keeper_id, t.item, t.subject_kind, t.subject_id, t.slope, t.crossing, t.crossing_from, t.crossing_to
        FROM derived.trend t, f WHERE t.facility_id = f.id AND t.keeper_id = ANY (f.workstations || f.rooms) AND t.at > ${eventsSince}::timestamptz ${when.trend}
        ORDER BY t.keeper_id, t.item, t.subject_id, t.at DESC) x WHERE x.crossing IS NOT NULL) AS trends,
      (SELECT to_json(x) FROM (
        SELECT p.id, p.version, p.in_force_from, p.document FROM procedure p, f
        WHERE p.facility_id = f.id AND p.kind = 'daily' AND p.in_force_from <= ${timestampOf(now)}::timestamptz
        ORDER BY p.version DESC LIMIT 1) x) AS procedure,
      -- A running check may have been begun before the version in force: what that one asks since, and what those before it asked.
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT p.in_force_from, jsonb_path_query_array(p.document, '$.items[*].item') AS items FROM procedure p, f
        WHERE p.facility_id = f.id AND p.kind = 'daily' AND p.in_force_from <= ${timestampOf(now)}::timestamptz
          AND EXISTS (SELECT FROM procedure n WHERE n.facility_id = f.id AND n.kind = 'daily' AND n.version > p.version
            AND n.in_force_from <= ${timestampOf(now)}::timestamptz AND n.in_force_from > f.since)
        ORDER BY p.version DESC LIMIT 9) x) AS earlier_versions,
      (SELECT coalesce(json_agg(x.own), '[]') FROM (
        SELECT DISTINCT ON (p.kind) p.kind, p.own FROM procedure p, f
        WHERE p.facility_id = f.id AND p.in_force_from <= ${timestampOf(now)}::timestamptz
        ORDER BY p.kind, p.version DESC) x WHERE x.own <> '[]') AS own_questions`;
  if (!row) throw new Error("the evidence query returned nothing");
  return row;
}
