import type { DepartmentPlan, MadeEvent, NewFitting } from "@/lib/domain/department/decide";
import type { PersonRecord, WorkstationRecord } from "@/lib/domain/department/model";
import type { Scope, Tx } from "@/lib/storage/client";
import { DEPARTMENT_TABLES, upsert } from "@/lib/storage/department-tables";
import { recordListVersions, recordServiceVersions } from "@/lib/storage/versions";
import { type Instant, timestampOf } from "@/lib/units/time";

export interface Writing {
  readonly scope: Scope;
  readonly at: Instant;
  readonly by: string;
  /** The session that imports stays open whatever it changes. */
  readonly session: string | null;
  readonly newId: () => string;
  /** argon2id hashes of new people's first passwords, by user id. */
  readonly hashes: ReadonlyMap<string, string>;
}

/**
 * Writes a plan: a statement a noun, in the order that the keys between them ask for.
 * False when a name that the whole organisation shares was taken in the meantime: then the command is refused, and nothing stays.
 */
export async function writeDepartment(tx: Tx, plan: DepartmentPlan, writing: Writing): Promise<boolean> {
  const { scope } = writing;
  const { records } = plan;
  if (!(await claimNames(tx, plan, writing))) return false;
  const put = (noun: keyof typeof DEPARTMENT_TABLES) => upsert(tx, scope, DEPARTMENT_TABLES[noun], records[noun]);
  for (const noun of [
    "suites",
    "zones",
    "stores",
    "rooms",
    "models",
    "workstations",
    "cylinders",
    "vaporizers",
    "absorbent",
    "sensors",
  ] as const) {
    await put(noun);
  }
  await place(tx, plan.placed, writing);
  await fitParts(tx, plan.takenOff, plan.fitted, writing);
  await recordEvents(tx, plan.events, writing);
  await put("service");
  await put("list");
  await recordServiceVersions(tx, scope, records.service, writing.at);
  await recordListVersions(tx, scope, records.list, writing.at);
  await writePeople(tx, records.people, plan.newPeople, writing);
  if (plan.placed.length + plan.fitted.length > 0) await tx.$queryRaw`SELECT refresh_statistics()::text`;
  return true;
}

/** User ids and models belong to the organisation, whose other facilities hold no lock of this one. */
async function claimNames(tx: Tx, { newPeople, newModels }: DepartmentPlan, { scope, at }: Writing): Promise<boolean> {
  if (newPeople.length + newModels.length === 0) return true;
  const people = await tx.$executeRaw`
    INSERT INTO person (id, organisation_id, user_id, name, created_at)
    SELECT i.id, ${scope.organisationId}::uuid, i."userId", i.name, ${timestampOf(at)}::timestamptz
    FROM jsonb_to_recordset(${JSON.stringify(newPeople)}::jsonb) AS i(id uuid, "userId" text, name text)
    ON CONFLICT DO NOTHING`;
  const models = await tx.$executeRaw`
    INSERT INTO workstation_model (id, organisation_id, maker, name, document)
    SELECT i.id, ${scope.organisationId}::uuid, i.maker, i.name, i.document
    FROM jsonb_to_recordset(${JSON.stringify(newModels)}::jsonb) AS i(id uuid, maker text, name text, document jsonb)
    ON CONFLICT DO NOTHING`;
  return people === newPeople.length && models === newModels.length;
}

/** Ends where each stood before it begins anew, all at one moment: two workstations may change places. */
async function place(tx: Tx, placed: readonly WorkstationRecord[], { scope, at, newId }: Writing): Promise<void> {
  if (placed.length === 0) return;
  const now = timestampOf(at);
  await tx.$executeRaw`
    UPDATE fact.placement SET "to" = greatest(${now}::timestamptz, "from")
    WHERE facility_id = ${scope.facilityId}::uuid AND workstation_id = ANY (${placed.map(({ id }) => id)}::uuid[]) AND "to" IS NULL`;
  const rows = placed.map(({ id, roomId, storeId }) => ({ id: newId(), workstationId: id, roomId, storeId }));
  await tx.$executeRaw`
    INSERT INTO fact.placement (facility_id, id, workstation_id, room_id, store_id, "from")
    SELECT ${scope.facilityId}::uuid, i.id, i."workstationId", i."roomId", i."storeId", ${now}::timestamptz
    FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) AS i(id uuid, "workstationId" uuid, "roomId" uuid, "storeId" uuid)`;
}

async function fitParts(
  tx: Tx,
  takenOff: readonly string[],
  fitted: readonly NewFitting[],
  { scope, at, newId }: Writing,
): Promise<void> {
  const now = timestampOf(at);
  if (takenOff.length > 0) {
    await tx.$executeRaw`
      UPDATE fact.fitting SET "to" = greatest(${now}::timestamptz, "from")
      WHERE facility_id = ${scope.facilityId}::uuid AND item_id = ANY (${[...takenOff]}::uuid[]) AND "to" IS NULL`;
  }
  if (fitted.length === 0) return;
  const rows = fitted.map((fitting) => ({ ...fitting, id: newId() }));
  await tx.$executeRaw`
    INSERT INTO fact.fitting (facility_id, id, item_kind, item_id, workstation_id, position, "from")
    SELECT ${scope.facilityId}::uuid, i.id, i.kind, i."itemId", i."workstationId", i.position, ${now}::timestamptz
    FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) AS i(id uuid, kind text, "itemId" uuid, "workstationId" uuid, position text)`;
}

async function recordEvents(tx: Tx, events: readonly MadeEvent[], { scope, at, by, newId }: Writing): Promise<void> {
  if (events.length === 0) return;
  const rows = events.map(({ kind, subject, workstationId, roomId }) => ({
    id: newId(),
    kind,
    subjectKind: subject.kind,
    subjectId: subject.id,
    workstationId,
    roomId,
  }));
  await tx.$executeRaw`
    INSERT INTO fact.equipment_event (facility_id, id, kind, subject_kind, subject_id, workstation_id, room_id, at, by)
    SELECT ${scope.facilityId}::uuid, i.id, i.kind, i."subjectKind", i."subjectId", i."workstationId", i."roomId", ${timestampOf(at)}::timestamptz, ${by}::uuid
    FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb)
      AS i(id uuid, kind text, "subjectKind" text, "subjectId" text, "workstationId" uuid, "roomId" uuid)`;
}

async function writePeople(
  tx: Tx,
  people: readonly PersonRecord[],
  added: readonly PersonRecord[],
  writing: Writing,
): Promise<void> {
  if (people.length === 0) return;
  const { scope, at, session, hashes } = writing;
  const now = timestampOf(at);
  const given = JSON.stringify(people);
  await tx.$executeRaw`
    UPDATE person p SET name = i.name FROM jsonb_to_recordset(${given}::jsonb) AS i(id uuid, name text)
    WHERE p.id = i.id AND p.name <> i.name`;
  // Somebody whose roles change signs in again, as with every change of roles; a person who is new has no session.
  await tx.$executeRaw`
    UPDATE session s SET ended_at = ${now}::timestamptz
    FROM jsonb_to_recordset(${given}::jsonb) AS i(id uuid, roles text[])
    WHERE s.person_id = i.id AND s.ended_at IS NULL AND s.facility_id = ${scope.facilityId}::uuid AND (${session}::uuid IS NULL OR s.id <> ${session}::uuid)
      AND i.roles IS DISTINCT FROM ARRAY(SELECT r.role FROM person_role r WHERE r.facility_id = ${scope.facilityId}::uuid AND r.person_id = i.id ORDER BY 1)`;
  await tx.$executeRaw`
    WITH wanted AS (
      SELECT i.id, unnest(i.roles) AS role FROM jsonb_to_recordset(${given}::jsonb) AS i(id uuid, roles text[])),
    gone AS (
      DELETE FROM person_role r USING (SELECT DISTINCT id FROM wanted) p
      WHERE r.facility_id = ${scope.facilityId}::uuid AND r.person_id = p.id
        AND NOT EXISTS (SELECT FROM wanted w WHERE w.id = r.person_id AND w.role = r.role))
    INSERT INTO person_role (facility_id, person_id, role) SELECT ${scope.facilityId}::uuid, w.id, w.role FROM wanted w ON CONFLICT DO NOTHING`;
  const secrets = added.map(({ id, userId }) => ({ id, hash: hashes.get(userId) ?? null }));
  if (secrets.some(({ hash }) => hash === null)) throw new Error("a new person came without a hashed password");
  if (secrets.length === 0) return;
  await tx.$queryRaw`
    SELECT count(store_password(i.id, i.hash, ${now}::timestamptz)::text)::int AS stored
    FROM jsonb_to_recordset(${JSON.stringify(secrets)}::jsonb) AS i(id uuid, hash text)`;
}
