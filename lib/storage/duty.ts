import { peopleOn } from "@/lib/domain/duty/decide";
import type { DutyNow, DutySpan } from "@/lib/domain/duty/model";
import type { Role } from "@/lib/domain/vocabulary";
import type { Tx } from "@/lib/storage/client";
import { type Instant, instantOf, type LocalDate, timestampOf } from "@/lib/units/time";

/** Who is on duty at an instant. Somebody who has left, or has lost the role, is not, whatever the roster says. */
export async function dutyAt(tx: Tx, facilityId: string, now: Instant, today: LocalDate): Promise<DutyNow> {
  const at = timestampOf(now);
  type Row = { personId: string; name: string; role: Role; to: string };
  const [found] = await tx.$queryRaw<{ known: boolean; rows: Row[] }[]>`
    SELECT EXISTS (SELECT FROM duty d WHERE d.facility_id = ${facilityId}::uuid AND (d.date = ${today}::date OR (d."from" <= ${at}::timestamptz AND d."to" > ${at}::timestamptz))) AS known,
      (SELECT coalesce(json_agg(x), '[]') FROM (
        SELECT d.person_id AS "personId", p.name, d.role, d."to"
        FROM duty d JOIN person p ON p.id = d.person_id AND p.active
        JOIN person_role r ON r.facility_id = d.facility_id AND r.person_id = d.person_id AND r.role = d.role
        WHERE d.facility_id = ${facilityId}::uuid AND d."to" > ${at}::timestamptz AND d."from" <= ${at}::timestamptz ORDER BY p.name, d.role) x) AS rows`;
  const rows = (found?.rows ?? []).map(({ to, ...row }) => ({ ...row, to: instantOf(to) }));
  return { onRoster: found?.known ?? false, people: peopleOn(rows) };
}

export interface DutyRow extends DutySpan {
  readonly personId: string;
  readonly name: string;
  readonly date: LocalDate;
}

interface DutyJson {
  personId: string;
  name: string;
  date: LocalDate;
  role: Role;
  from: string;
  to: string;
}

const dutyOf = ({ from, to, ...row }: DutyJson): DutyRow => ({ ...row, from: instantOf(from), to: instantOf(to) });

/** The roster of a day, by name. */
export async function dutyOn(tx: Tx, facilityId: string, date: LocalDate): Promise<DutyRow[]> {
  const [found] = await tx.$queryRaw<{ rows: DutyJson[] }[]>`
    SELECT coalesce(json_agg(x), '[]') AS rows FROM (
      SELECT d.person_id AS "personId", p.name, d.date, d.role, d."from", d."to" FROM duty d JOIN person p ON p.id = d.person_id
      WHERE d.facility_id = ${facilityId}::uuid AND d.date = ${date}::date ORDER BY p.name, d."from", d.role) x`;
  return (found?.rows ?? []).map(dutyOf);
}

/** What rosters of other days say of these people around some time. */
export async function dutyAround(
  tx: Tx,
  facilityId: string,
  people: readonly string[],
  from: Instant,
  to: Instant,
): Promise<DutyRow[]> {
  const [found] = await tx.$queryRaw<{ rows: DutyJson[] }[]>`
    SELECT coalesce(json_agg(x), '[]') AS rows FROM (
      SELECT d.person_id AS "personId", '' AS name, d.date, d.role, d."from", d."to" FROM duty d
      WHERE d.facility_id = ${facilityId}::uuid AND d.person_id = ANY (${[...people]}::uuid[])
        AND d."from" < ${timestampOf(to)}::timestamptz AND d."to" > ${timestampOf(from)}::timestamptz) x`;
  return (found?.rows ?? []).map(dutyOf);
}

export interface DutyOfPerson {
  readonly personId: string;
  readonly date: LocalDate;
  readonly spans: readonly DutySpan[];
}

/** Replaces what these people's rosters said for these days. False when somebody else entered the same at the same time. */
export async function replaceDuty(
  tx: Tx,
  facilityId: string,
  duties: readonly DutyOfPerson[],
  newId: () => string,
): Promise<boolean> {
  const days = duties.map(({ personId, date }) => ({ personId, date }));
  const rows = duties.flatMap(({ personId, date, spans }) =>
    spans.map(({ role, from, to }) => ({
      id: newId(),
      personId,
      date,
      role,
      from: timestampOf(from),
      to: timestampOf(to),
    })),
  );
  await tx.$executeRaw`
    DELETE FROM duty d USING jsonb_to_recordset(${JSON.stringify(days)}::jsonb) AS i("personId" uuid, date date)
    WHERE d.facility_id = ${facilityId}::uuid AND d.person_id = i."personId" AND d.date = i.date`;
  const inserted = await tx.$executeRaw`
    INSERT INTO duty (facility_id, id, date, person_id, role, "from", "to")
    SELECT ${facilityId}::uuid, i.id, i.date, i."personId", i.role, i."from", i."to"
    FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb)
      AS i(id uuid, date date, "personId" uuid, role text, "from" timestamptz, "to" timestamptz)
    ON CONFLICT DO NOTHING`;
  return inserted === rows.length;
}

export interface DutyPerson {
  readonly id: string;
  readonly userId: string;
  readonly name: string;
  readonly active: boolean;
  readonly roles: readonly Role[];
}

/** People of the organisation by id or by user id, with their roles in this facility. */
export async function dutyPeople(
  tx: Tx,
  facilityId: string,
  by: { readonly ids?: readonly string[]; readonly userIds?: readonly string[] },
): Promise<DutyPerson[]> {
  const userIds = (by.userIds ?? []).map((userId) => userId.toLowerCase());
  return tx.$queryRaw<DutyPerson[]>`
    SELECT p.id, p.user_id AS "userId", p.name, p.active,
      ARRAY(SELECT r.role FROM person_role r WHERE r.facility_id = ${facilityId}::uuid AND r.person_id = p.id ORDER BY r.role) AS roles
    FROM person p WHERE p.id = ANY (${[...(by.ids ?? [])]}::uuid[]) OR lower(p.user_id) = ANY (${userIds}::text[])`;
}
