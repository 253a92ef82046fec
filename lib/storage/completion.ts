import type { ItemId, SubjectKind } from "@/lib/domain/items";
import type { Tx } from "@/lib/storage/client";
import { type Instant, timestampOf } from "@/lib/units/time";

export interface CompletionFacts {
  readonly rooms: readonly { readonly id: string; readonly name: string; readonly suite: string }[];
  readonly lists: readonly { readonly room_id: string; readonly date: string; readonly first_case: string | null }[];
  readonly checks: readonly {
    readonly id: string;
    readonly room_id: string;
    readonly started_at: string;
    readonly performed: { readonly at: string; readonly name: string } | null;
    readonly confirmed: { readonly at: string; readonly name: string } | null;
  }[];
  readonly failures: readonly {
    readonly room_id: string;
    readonly item: ItemId;
    readonly subject_kind: SubjectKind;
    readonly observed_at: string;
  }[];
  readonly swaps: readonly {
    readonly room_id: string;
    readonly at: string;
    readonly serial: string;
    readonly position: string;
  }[];
  readonly occupancy: readonly {
    readonly room_id: string;
    readonly state: "in-use" | "closed";
    readonly from: string;
    readonly to: string | null;
  }[];
}

/** The facts of some check days behind the completion report, each kind once. */
export async function completionFacts(
  tx: Tx,
  facilityId: string,
  from: Instant,
  to: Instant,
  dates: { readonly from: string; readonly to: string },
): Promise<CompletionFacts> {
  const [row] = await tx.$queryRaw<CompletionFacts[]>`
    WITH f AS (SELECT ${facilityId}::uuid AS id, ${timestampOf(from)}::timestamptz AS since, ${timestampOf(to)}::timestamptz AS until),
    runs AS (SELECT c.* FROM fact.check_run c, f WHERE c.facility_id = f.id AND c.started_at >= f.since AND c.started_at < f.until AND c.room_id IS NOT NULL
      AND NOT EXISTS (SELECT FROM fact.check_correction k WHERE k.facility_id = c.facility_id AND k.check_id = c.id))
    SELECT
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT r.id, r.name, s.name AS suite FROM room r JOIN suite s ON s.facility_id = r.facility_id AND s.id = r.suite_id, f
        WHERE r.facility_id = f.id AND (r.retired_at IS NULL OR r.retired_at > f.since) ORDER BY s.walking_order, r.walking_order, r.name) x) AS rooms,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT l.room_id, l.date, l.first_case FROM day_list l, f
        WHERE l.facility_id = f.id AND l.date BETWEEN ${dates.from}::date AND ${dates.to}::date
        UNION ALL
        -- A day without a list of its own runs by the template that was valid on it.
        SELECT t.room_id, d.date::date, t.first_case FROM f, generate_series(${dates.from}::date, ${dates.to}::date, interval '1 day') AS d(date)
        JOIN weekly_template t ON t.weekday = extract(isodow FROM d.date) AND t.from_date <= d.date AND (t.to_date IS NULL OR t.to_date > d.date) AND NOT t.closed
        WHERE t.facility_id = f.id AND NOT EXISTS (
          SELECT FROM day_list l WHERE l.facility_id = t.facility_id AND l.room_id = t.room_id AND l.date = d.date)) x) AS lists,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT c.id, c.room_id, c.started_at,
          (SELECT json_build_object('at', g.at, 'name', p.name) FROM fact.signature g JOIN person p ON p.id = g.person_id
           WHERE g.facility_id = c.facility_id AND g.check_id = c.id AND g.meaning = 'performed') AS performed,
          (SELECT json_build_object('at', g.at, 'name', p.name) FROM fact.signature g JOIN person p ON p.id = g.person_id
           WHERE g.facility_id = c.facility_id AND g.check_id = c.id AND g.meaning = 'confirmed') AS confirmed
        FROM runs c WHERE c.kind IN ('daily', 'first-user') ORDER BY c.started_at) x) AS checks,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT c.room_id, o.item, o.subject_kind, o.observed_at FROM fact.observation o JOIN runs c ON c.facility_id = o.facility_id AND c.id = o.check_id
        WHERE o.verdict = 'fail' ORDER BY o.observed_at) x) AS failures,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT p.room_id, e.at, y.serial, t.position FROM fact.equipment_event e
        JOIN fact.placement p ON p.facility_id = e.facility_id AND p.workstation_id = e.workstation_id AND p.room_id IS NOT NULL
          AND p."from" <= e.at AND (p."to" IS NULL OR p."to" > e.at)
        JOIN cylinder y ON y.facility_id = e.facility_id AND y.id::text = e.subject_id
        JOIN fact.fitting t ON t.facility_id = e.facility_id AND t.item_id = y.id AND t."from" = e.at, f
        WHERE e.facility_id = f.id AND e.kind = 'cylinder-swapped' AND e.at >= f.since AND e.at < f.until ORDER BY e.at) x) AS swaps,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT o.room_id, o.state, o."from", o."to" FROM fact.occupancy o, f
        WHERE o.facility_id = f.id AND o."from" < f.until AND (o."to" IS NULL OR o."to" > f.since)) x) AS occupancy`;
  if (!row) throw new Error("the completion query returned nothing");
  return row;
}
