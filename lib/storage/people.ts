import type { Role } from "@/lib/domain/vocabulary";
import type { Tx } from "@/lib/storage/client";
import { type Instant, timestampOf } from "@/lib/units/time";

export interface PersonRecord {
  readonly id: string;
  readonly userId: string;
  readonly name: string;
  readonly active: boolean;
  readonly roles: readonly Role[];
}

/** The people of the organisation with their roles in the current facility. */
export async function listPeople(tx: Tx, facilityId: string): Promise<PersonRecord[]> {
  return tx.$queryRaw<PersonRecord[]>`
    SELECT p.id, p.user_id AS "userId", p.name, p.active,
      coalesce((SELECT array_agg(r.role ORDER BY r.role) FROM person_role r WHERE r.facility_id = ${facilityId}::uuid AND r.person_id = p.id), '{}') AS roles
    FROM person p ORDER BY p.name, p.user_id`;
}

/** Changes of roles wait for each other, so that no two of them together leave a facility without an administrator. */
export async function lockRoles(tx: Tx, facilityId: string): Promise<void> {
  await tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`roles:${facilityId}`}, 0))::text AS locked`;
}

export async function userIdTaken(tx: Tx, userId: string): Promise<boolean> {
  const [row] = await tx.$queryRaw<{ taken: boolean }[]>`SELECT user_id_taken(${userId}) AS taken`;
  return row?.taken ?? true;
}

/** False when the user id is taken, now or by somebody who left: ids are never reused. */
export async function insertPerson(
  tx: Tx,
  organisationId: string,
  person: { readonly id: string; readonly userId: string; readonly name: string; readonly at: Instant },
): Promise<boolean> {
  const inserted = await tx.$executeRaw`
    INSERT INTO person (id, organisation_id, user_id, name, created_at)
    VALUES (${person.id}::uuid, ${organisationId}::uuid, ${person.userId}, ${person.name}, ${timestampOf(person.at)}::timestamptz)
    ON CONFLICT DO NOTHING`;
  return inserted === 1;
}

export async function replaceRoles(
  tx: Tx,
  facilityId: string,
  personId: string,
  roles: readonly Role[],
): Promise<void> {
  await tx.$executeRaw`
    DELETE FROM person_role WHERE facility_id = ${facilityId}::uuid AND person_id = ${personId}::uuid AND NOT role = ANY (${[...roles]}::text[])`;
  await tx.$executeRaw`
    INSERT INTO person_role (facility_id, person_id, role) SELECT ${facilityId}::uuid, ${personId}::uuid, unnest(${[...roles]}::text[]) ON CONFLICT DO NOTHING`;
}

export async function setActive(tx: Tx, personId: string, active: boolean): Promise<boolean> {
  return (await tx.$executeRaw`UPDATE person SET active = ${active} WHERE id = ${personId}::uuid`) === 1;
}

export async function storePassword(tx: Tx, personId: string, hash: string, at: Instant): Promise<void> {
  await tx.$queryRaw`SELECT store_password(${personId}::uuid, ${hash}, ${timestampOf(at)}::timestamptz)::text`;
}

export async function passwordOf(tx: Tx, personId: string): Promise<string | null> {
  const [row] = await tx.$queryRaw<{ hash: string | null }[]>`SELECT password_of(${personId}::uuid) AS hash`;
  return row?.hash ?? null;
}

/** Ends a person's open sessions: on every device, at once. Returns the ids, so that caches can drop them. */
export async function endSessionsOf(
  tx: Tx,
  personId: string,
  at: Instant,
  except: string | null = null,
): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    UPDATE session SET ended_at = ${timestampOf(at)}::timestamptz
    WHERE person_id = ${personId}::uuid AND ended_at IS NULL AND (${except}::uuid IS NULL OR id <> ${except}::uuid) RETURNING id`;
  return rows.map(({ id }) => id);
}
