import { type Sql, sql } from "@/lib/storage/client";
import type { LocalDate } from "@/lib/units/time";

/** The weekly template of room `r` that is valid on a date. */
export const templateOn = (date: LocalDate): Sql => sql`
  FROM weekly_template t WHERE t.facility_id = r.facility_id AND t.room_id = r.id AND t.weekday = extract(isodow FROM ${date}::date)
    AND t.from_date <= ${date}::date AND (t.to_date IS NULL OR t.to_date > ${date}::date)`;

const listOn = (date: LocalDate): Sql => sql`
  FROM day_list d WHERE d.facility_id = r.facility_id AND d.room_id = r.id AND d.date = ${date}::date`;

/**
 * The list of room `r` on a date, as JSON: the one entered or imported for that day, else what its weekday usually is.
 * A weekday without a template, and one on which the room is closed, has none.
 */
export const dayListOn = (date: LocalDate): Sql => sql`
  coalesce(
    (SELECT json_build_object('first_case', d.first_case, 'ends_at', d.ends_at, 'needs', d.needs, 'set_up_minutes', d.set_up_minutes, 'date', d.date,
        'source', 'day') ${listOn(date)}),
    (SELECT json_build_object('first_case', t.first_case, 'ends_at', t.ends_at, 'needs', t.needs, 'set_up_minutes', t.set_up_minutes, 'date', ${date}::date,
        'source', 'week') ${templateOn(date)} AND NOT t.closed))`;

/** Is room `r` closed on that date because its weekday is, with no list that says otherwise? */
export const closedByTemplateOn = (date: LocalDate): Sql => sql`
  (EXISTS (SELECT ${templateOn(date)} AND t.closed) AND NOT EXISTS (SELECT ${listOn(date)}))`;
