import { type Sql, sql } from "@/lib/storage/client";
import { closedByTemplateOn, dayListOn, templateOn } from "@/lib/storage/day-list";
import { type Instant, type LocalDate, timestampOf } from "@/lib/units/time";

/**
 * The pieces of the evidence query that say when: what stands now, or what was known at a past moment. Facts are intervals, or rows
 * with the moment they were recorded, so both are asked by one statement; `f` are its values, the letters its tables.
 */
export interface When {
  readonly correction: Sql;
  readonly observation: Sql;
  readonly newer: Sql;
  /** The answers that stand from before the window. */
  readonly latest: Sql;
  readonly run: Sql;
  readonly signature: Sql;
  readonly room: Sql;
  readonly workstation: Sql;
  readonly placement: Sql;
  readonly occupancy: Sql;
  readonly fitting: Sql;
  readonly hold: Sql;
  readonly fault: Sql;
  readonly allowance: Sql;
  readonly recall: Sql;
  readonly vaporFree: Sql;
  readonly service: Sql;
  readonly event: Sql;
  readonly trend: Sql;
  list(date: LocalDate): Sql;
  closedByTemplate(date: LocalDate): Sql;
}

const ALWAYS = sql``;

/** As it stands. Older answers come through derived.latest_observation, so the cost does not grow with the history. */
export const NOW: When = {
  correction: ALWAYS,
  observation: ALWAYS,
  newer: ALWAYS,
  latest: sql`
      SELECT o.* FROM derived.latest_observation l JOIN fact.observation o ON o.facility_id = l.facility_id AND o.id = l.observation_id, f
      WHERE l.facility_id = f.id AND l.keeper_id = ANY (f.workstations || f.rooms)`,
  run: ALWAYS,
  signature: ALWAYS,
  room: sql`r.retired_at IS NULL`,
  workstation: sql`w.retired_at IS NULL`,
  placement: sql`p."to" IS NULL`,
  occupancy: sql`o."to" IS NULL`,
  fitting: sql`t."to" IS NULL`,
  hold: sql`h.lifted_at IS NULL`,
  fault: sql`q.looked_at IS NULL`,
  allowance: sql`l.revoked_at IS NULL`,
  recall: sql`e.ended_at IS NULL`,
  vaporFree: sql`v.withdrawn_at IS NULL`,
  service: sql`service_plan`,
  event: ALWAYS,
  trend: ALWAYS,
  list: dayListOn,
  closedByTemplate: closedByTemplateOn,
};

/**
 * As it was known at a moment: nothing that was recorded, signed, ended or taken back later. What a site overwrites (what is piped to a
 * room, what a model is like, a weekly template changed on the day itself) is as it is now.
 */
export function asKnownAt(at: Instant): When {
  const then = sql`${timestampOf(at)}::timestamptz`;
  return {
    correction: sql`AND k.at <= ${then}`,
    observation: sql`AND o.recorded_at <= ${then}`,
    newer: sql`AND n.recorded_at <= ${then}`,
    latest: sql`
      (SELECT DISTINCT ON (coalesce(o.workstation_id, o.room_id), o.item, o.subject_id, o.verdict) o.* FROM fact.observation o, f
       WHERE o.facility_id = f.id AND (o.workstation_id = ANY (f.workstations) OR o.room_id = ANY (f.rooms)) AND o.recorded_at <= ${then}
         AND NOT EXISTS (SELECT FROM elsewhere e WHERE e.check_id = o.check_id)
         AND CASE o.verdict
           WHEN 'fail' THEN NOT EXISTS (SELECT FROM fact.observation n WHERE n.facility_id = o.facility_id AND n.supersedes = o.id AND n.recorded_at <= ${then})
           WHEN 'pass' THEN EXISTS (SELECT FROM fact.signature s WHERE s.facility_id = o.facility_id AND s.check_id = o.check_id AND s.meaning = 'performed' AND s.at <= ${then})
           ELSE false END
       ORDER BY coalesce(o.workstation_id, o.room_id), o.item, o.subject_id, o.verdict, o.observed_at DESC, o.recorded_at DESC)`,
    run: sql`AND c.started_at <= ${then}`,
    signature: sql`AND g.at <= ${then}`,
    room: sql`(r.retired_at IS NULL OR r.retired_at > ${then})`,
    workstation: sql`(w.retired_at IS NULL OR w.retired_at > ${then})`,
    placement: sql`p."from" <= ${then} AND (p."to" IS NULL OR p."to" > ${then})`,
    occupancy: sql`o."from" <= ${then} AND (o."to" IS NULL OR o."to" > ${then})`,
    fitting: sql`t."from" <= ${then} AND (t."to" IS NULL OR t."to" > ${then})`,
    hold: sql`h.at <= ${then} AND (h.lifted_at IS NULL OR h.lifted_at > ${then})`,
    fault: sql`q.at <= ${then} AND (q.looked_at IS NULL OR q.looked_at > ${then})`,
    allowance: sql`l.at <= ${then} AND (l.revoked_at IS NULL OR l.revoked_at > ${then})`,
    recall: sql`e.at <= ${then} AND (e.ended_at IS NULL OR e.ended_at > ${then})`,
    vaporFree: sql`v.at <= ${then} AND (v.withdrawn_at IS NULL OR v.withdrawn_at > ${then})`,
    service: sql`
      (SELECT DISTINCT ON (s.workstation_id, s.plan) s.facility_id, s.workstation_id, s.plan, s.due, s.window_from, s.window_to
       FROM fact.service_version s, f WHERE s.facility_id = f.id AND s.workstation_id = ANY (f.workstations) AND s.recorded_at <= ${then}
       ORDER BY s.workstation_id, s.plan, s.recorded_at DESC)`,
    event: sql`AND e.at <= ${then}`,
    trend: sql`AND t.at <= ${then}`,
    list: (date) => listAsKnown(date, then),
    closedByTemplate: (date) =>
      sql`(EXISTS (SELECT ${templateOn(date)} AND t.closed) AND ${listAsKnown(date, then)} IS NULL)`,
  };
}

/** The newest version of the day's list by then; without one, what the weekday usually is. */
const listAsKnown = (date: LocalDate, then: Sql): Sql => sql`
  coalesce(
    (SELECT CASE WHEN v.removed THEN NULL ELSE json_build_object('first_case', v.first_case, 'ends_at', v.ends_at, 'needs', v.needs,
        'set_up_minutes', v.set_up_minutes, 'date', v.date, 'source', 'day') END
     FROM fact.list_version v WHERE v.facility_id = r.facility_id AND v.room_id = r.id AND v.date = ${date}::date AND v.recorded_at <= ${then}
     ORDER BY v.recorded_at DESC LIMIT 1),
    (SELECT json_build_object('first_case', t.first_case, 'ends_at', t.ends_at, 'needs', t.needs, 'set_up_minutes', t.set_up_minutes, 'date', ${date}::date,
        'source', 'week') ${templateOn(date)} AND NOT t.closed))`;
