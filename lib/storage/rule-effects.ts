import type { Tx } from "@/lib/storage/client";
import { type Instant, type LocalDate, timestampOf } from "@/lib/units/time";

/** How often a rule began to show, and after how many of these somebody acted. */
export interface RuleEffect {
  readonly rule: string;
  readonly fired: number;
  readonly acted: number;
  /** Rooms in which it showed before noon, by day of the facility's calendar. */
  readonly mornings: readonly { readonly date: LocalDate; readonly rooms: number }[];
}

export interface RuleEffects {
  readonly rules: readonly RuleEffect[];
  /** Rooms that ran on each day: those with a list of the day or a template for its weekday. */
  readonly days: readonly { readonly date: LocalDate; readonly rooms: number }[];
}

/**
 * What each rule did, out of the log of changes and of what people did.
 *
 * It fired when a reason of it appeared in a room that had none of it before. Somebody acted when, while it stood there or within ten
 * minutes of its going, a task of this rule was finished, its limit was allowed, or the workstation of that room was held, swapped or given
 * another cylinder, vaporizer, absorbent or sensor.
 */
export async function ruleEffects(
  tx: Tx,
  facilityId: string,
  place: {
    readonly timeZone: string;
    readonly from: Instant;
    readonly to: Instant;
    readonly dates: readonly LocalDate[];
  },
): Promise<RuleEffects> {
  const { timeZone, from, to, dates } = place;
  const [row] = await tx.$queryRaw<RuleEffects[]>`
    WITH f AS (SELECT ${facilityId}::uuid AS id, ${timestampOf(from)}::timestamptz AS since, ${timestampOf(to)}::timestamptz AS until),
    log AS (
      SELECT c.holder_id AS room_id, c.at, c.id, ARRAY(SELECT DISTINCT x->>'rule' FROM jsonb_array_elements(c.judgement->'reasons') x) AS rules
      FROM derived.readiness_change c, f WHERE c.facility_id = f.id AND c.holder_kind = 'room' AND c.at >= f.since AND c.at <= f.until),
    turns AS (
      SELECT l.room_id, l.at, l.rules, coalesce(lag(l.rules) OVER w, '{}') AS before, row_number() OVER w AS place FROM log l WINDOW w AS (PARTITION BY l.room_id ORDER BY l.at, l.id)),
    edges AS (
      SELECT t.room_id, r.rule, t.at, t.place, true AS shows FROM turns t, unnest(t.rules) AS r(rule) WHERE NOT r.rule = ANY (t.before)
      UNION ALL
      SELECT t.room_id, r.rule, t.at, t.place, false FROM turns t, unnest(t.before) AS r(rule) WHERE NOT r.rule = ANY (t.rules)),
    stood AS (
      SELECT * FROM (SELECT e.room_id, e.rule, e.at, e.shows, e.place, lead(e.at) OVER (PARTITION BY e.room_id, e.rule ORDER BY e.place) AS gone FROM edges e) x WHERE x.shows),
    acts AS (
      SELECT p.room_id, a.at, a.rule FROM (
        SELECT l.workstation_id, l.at, l.rule FROM fact.limit_allowance l, f WHERE l.facility_id = f.id AND l.at >= f.since
        UNION ALL
        SELECT h.workstation_id, h.at, NULL FROM fact.hold h, f WHERE h.facility_id = f.id AND h.at >= f.since
        UNION ALL
        SELECT e.workstation_id, e.at, NULL FROM fact.equipment_event e, f WHERE e.facility_id = f.id AND e.at >= f.since
          AND e.kind IN ('cylinder-swapped', 'vaporizer-fitted', 'vaporizer-removed', 'absorbent-changed', 'sensor-replaced', 'moved-in')) a
      JOIN fact.placement p ON p.facility_id = ${facilityId}::uuid AND p.workstation_id = a.workstation_id AND p.room_id IS NOT NULL
        AND p."from" <= a.at AND (p."to" IS NULL OR p."to" >= a.at)
      UNION ALL
      SELECT t.holder_id, c."to", t.document->>'rule' FROM fact.claim c
      JOIN derived.task t ON t.facility_id = c.facility_id AND t.key = c.task_key AND t.holder_kind = 'room' AND t.opened_at <= c."to", f
      WHERE c.facility_id = f.id AND c.outcome = 'finished' AND c."to" >= f.since AND t.document->>'rule' IS NOT NULL),
    shown AS (
      SELECT s.*, EXISTS (SELECT FROM acts a WHERE a.room_id = s.room_id AND (a.rule IS NULL OR a.rule = s.rule)
        AND a.at >= s.at AND a.at <= coalesce(s.gone, 'infinity'::timestamptz) + interval '10 minutes') AS acted FROM stood s),
    days AS (SELECT d.date, (d.date + time '03:00') AT TIME ZONE ${timeZone} AS opens, (d.date + time '12:00') AT TIME ZONE ${timeZone} AS noon
      FROM unnest(${[...dates]}::date[]) AS d(date))
    SELECT
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT s.rule, count(*)::int AS fired, (count(*) FILTER (WHERE s.acted))::int AS acted,
          (SELECT coalesce(json_agg(m), '[]') FROM (
            SELECT d.date, count(DISTINCT o.room_id)::int AS rooms FROM days d JOIN stood o ON o.rule = s.rule AND o.at < d.noon AND (o.gone IS NULL OR o.gone > d.opens)
            GROUP BY d.date) m) AS mornings
        FROM shown s GROUP BY s.rule ORDER BY s.rule) x) AS rules,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT d.date, count(DISTINCT r.id)::int AS rooms FROM days d JOIN room r ON r.facility_id = ${facilityId}::uuid AND (r.retired_at IS NULL OR r.retired_at > d.noon)
        WHERE EXISTS (SELECT FROM day_list l WHERE l.facility_id = r.facility_id AND l.room_id = r.id AND l.date = d.date)
          OR EXISTS (SELECT FROM weekly_template t WHERE t.facility_id = r.facility_id AND t.room_id = r.id AND t.weekday = extract(isodow FROM d.date)
            AND t.from_date <= d.date AND (t.to_date IS NULL OR t.to_date > d.date) AND NOT t.closed)
        GROUP BY d.date) x) AS days`;
  return row ?? { rules: [], days: [] };
}
