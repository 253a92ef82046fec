import type { Need } from "@/lib/domain/vocabulary";
import type { DayAsked, ListAsked, Weekday } from "@/lib/domain/weekly-template/model";
import type { Scope, Tx } from "@/lib/storage/client";
import { DEPARTMENT_TABLES, upsert } from "@/lib/storage/department-tables";
import { recordListVersions } from "@/lib/storage/versions";
import type { Instant, LocalDate, LocalTime } from "@/lib/units/time";

export interface StoredDay {
  readonly roomId: string;
  readonly weekday: Weekday;
  readonly from: LocalDate;
  readonly closed: boolean;
  readonly firstCase: LocalTime | null;
  readonly ends: LocalTime | null;
  readonly needs: readonly Need[];
  readonly setUpMinutes: number;
}

/** The weekly templates that are valid now or will be. */
export const weeklyTemplates = (tx: Tx, facilityId: string): Promise<StoredDay[]> => tx.$queryRaw<StoredDay[]>`
  SELECT room_id AS "roomId", weekday, from_date::text AS "from", closed, first_case AS "firstCase", ends_at AS ends, needs, set_up_minutes AS "setUpMinutes"
  FROM weekly_template WHERE facility_id = ${facilityId}::uuid AND to_date IS NULL ORDER BY room_id, weekday`;

/** The week of some rooms from a date on; until that date what was said before stays said. */
export async function putWeek(
  tx: Tx,
  facilityId: string,
  roomIds: readonly string[],
  days: readonly DayAsked[],
  from: LocalDate,
): Promise<void> {
  const rooms = [...roomIds];
  await tx.$executeRaw`
    DELETE FROM weekly_template WHERE facility_id = ${facilityId}::uuid AND room_id = ANY (${rooms}::uuid[]) AND from_date >= ${from}::date`;
  await tx.$executeRaw`
    UPDATE weekly_template SET to_date = ${from}::date
    WHERE facility_id = ${facilityId}::uuid AND room_id = ANY (${rooms}::uuid[]) AND (to_date IS NULL OR to_date > ${from}::date)`;
  const rows = days.map((day) => ({ firstCase: null, ends: null, needs: [], setUpMinutes: 0, ...day }));
  await tx.$executeRaw`
    INSERT INTO weekly_template (facility_id, room_id, weekday, from_date, closed, first_case, ends_at, needs, set_up_minutes)
    SELECT ${facilityId}::uuid, r.id, i.weekday, ${from}::date, i.closed, i."firstCase", i.ends, i.needs, i."setUpMinutes"
    FROM unnest(${rooms}::uuid[]) AS r(id), jsonb_to_recordset(${JSON.stringify(rows)}::jsonb)
      AS i(weekday int, closed boolean, "firstCase" text, ends text, needs text[], "setUpMinutes" int)`;
}

export interface StoredList extends ListAsked {
  readonly roomId: string;
}

/** The lists of one day that were entered or imported for it. */
export const listsOn = (tx: Tx, facilityId: string, date: LocalDate): Promise<StoredList[]> => tx.$queryRaw<
  StoredList[]
>`
  SELECT room_id AS "roomId", first_case AS "firstCase", ends_at AS ends, needs, set_up_minutes AS "setUpMinutes"
  FROM day_list WHERE facility_id = ${facilityId}::uuid AND date = ${date}::date`;

/** One room's list of one day; null takes the day's own list away, so that the weekly template holds. */
export async function putList(
  tx: Tx,
  scope: Scope,
  roomId: string,
  date: LocalDate,
  list: ListAsked | null,
  at: Instant,
): Promise<void> {
  const version = list ?? { firstCase: null, ends: null, needs: [], setUpMinutes: 0 };
  await recordListVersions(tx, scope, [{ ...version, roomId, date, removed: list === null }], at);
  if (list === null)
    await tx.$executeRaw`
      DELETE FROM day_list WHERE facility_id = ${scope.facilityId}::uuid AND room_id = ${roomId}::uuid AND date = ${date}::date`;
  else await upsert(tx, scope, DEPARTMENT_TABLES.list, [{ ...list, roomId, date }]);
}
