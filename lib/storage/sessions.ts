import type { AccessSettings } from "@/lib/domain/access/model";
import type { FacilityEvidence } from "@/lib/domain/evidence";
import type { Role } from "@/lib/domain/vocabulary";
import type { Database, Tx } from "@/lib/storage/client";
import { facilityOf } from "@/lib/storage/command-frame";
import { type Instant, timestampOf } from "@/lib/units/time";

export interface SignInRecord {
  readonly personId: string;
  readonly organisationId: string;
  readonly name: string;
  /** Null for somebody who comes in by an issuer alone. */
  readonly passwordHash: string | null;
  readonly active: boolean;
  readonly facilities: readonly { readonly id: string; readonly name: string }[];
}

export async function signInRecord(database: Database, userId: string): Promise<SignInRecord | null> {
  const rows = await database.withoutScope(
    (tx) => tx.$queryRaw<SignInRecord[]>`
      SELECT person_id AS "personId", organisation_id AS "organisationId", name, password_hash AS "passwordHash", active, facilities FROM sign_in_lookup(${userId})`,
  );
  return rows[0] ?? null;
}

export type SignInMethod = "password" | "issuer";

export interface NewSession {
  readonly id: string;
  readonly personId: string;
  readonly facilityId: string;
  readonly organisationId: string;
  readonly createdAt: Instant;
  readonly expiresAt: Instant;
  readonly method?: SignInMethod;
  /** The hash of the browser's own cookie; without one the session is never offered on a PIN pad. */
  readonly deviceHash?: string | null;
}

export async function insertSession(tx: Tx, session: NewSession): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO session (id, organisation_id, person_id, facility_id, created_at, expires_at, active_at, method, device_hash)
    VALUES (${session.id}::uuid, ${session.organisationId}::uuid, ${session.personId}::uuid, ${session.facilityId}::uuid,
      ${timestampOf(session.createdAt)}::timestamptz, ${timestampOf(session.expiresAt)}::timestamptz,
      ${timestampOf(session.createdAt)}::timestamptz, ${session.method ?? "password"}, ${session.deviceHash ?? null})`;
}

export async function endSession(tx: Tx, sessionId: string, at: Instant): Promise<void> {
  await tx.$executeRaw`UPDATE session SET ended_at = ${timestampOf(at)}::timestamptz WHERE id = ${sessionId}::uuid AND ended_at IS NULL`;
  await notifySession(tx, sessionId);
}

/** Tells every instance that a session is no longer what it was: caches drop it, its event streams end. */
async function notifySession(tx: Tx, sessionId: string): Promise<void> {
  await tx.$queryRaw`SELECT pg_notify('yokeboard', ${JSON.stringify({ session: sessionId })})::text AS sent`;
}

/** Moves an open session to another facility; that its person has a role there is asked before. False when it has ended. */
export async function moveSession(tx: Tx, sessionId: string, personId: string, facilityId: string): Promise<boolean> {
  const moved = await tx.$executeRaw`
    UPDATE session s SET facility_id = ${facilityId}::uuid WHERE s.id = ${sessionId}::uuid AND s.person_id = ${personId}::uuid AND s.ended_at IS NULL`;
  await notifySession(tx, sessionId);
  return moved === 1;
}

export interface SessionRecord {
  readonly sessionId: string;
  readonly personId: string;
  readonly name: string;
  readonly userId: string;
  readonly organisationId: string;
  readonly facility: FacilityEvidence & { readonly name: string };
  readonly roles: readonly Role[];
  readonly facilities: readonly { readonly id: string; readonly name: string }[];
  readonly createdAt: number;
  readonly expiresAt: number;
  readonly method: SignInMethod;
  readonly deviceHash: string | null;
  readonly activeAt: number;
  readonly lockedAt: number | null;
  readonly fullySignedAt: number | null;
  /** What the facility chose of its access settings. */
  readonly access: Partial<AccessSettings>;
  readonly hasPin: boolean;
  readonly hasPassword: boolean;
}

interface SessionRow {
  session_id: string;
  person_id: string;
  name: string;
  user_id: string;
  organisation_id: string;
  facility: Parameters<typeof facilityOf>[0];
  roles: Role[];
  facilities: { id: string; name: string }[];
  created_at: Date;
  expires_at: Date;
  method: SignInMethod;
  device_hash: string | null;
  active_at: Date | null;
  locked_at: Date | null;
  fully_signed_at: Date | null;
  access: Partial<AccessSettings>;
  has_pin: boolean;
  has_password: boolean;
}

export async function findSession(database: Database, sessionId: string): Promise<SessionRecord | null> {
  const [row] = await database.withoutScope(
    (tx) => tx.$queryRaw<SessionRow[]>`SELECT * FROM find_session(${sessionId}::uuid)`,
  );
  return row ? recordOf(row) : null;
}

const recordOf = (row: SessionRow): SessionRecord => ({
  sessionId: row.session_id,
  personId: row.person_id,
  name: row.name,
  userId: row.user_id,
  organisationId: row.organisation_id,
  facility: facilityOf(row.facility),
  roles: row.roles,
  facilities: row.facilities,
  createdAt: row.created_at.getTime(),
  expiresAt: row.expires_at.getTime(),
  method: row.method,
  deviceHash: row.device_hash,
  activeAt: (row.active_at ?? row.created_at).getTime(),
  lockedAt: row.locked_at?.getTime() ?? null,
  fullySignedAt: row.fully_signed_at?.getTime() ?? null,
  access: row.access,
  hasPin: row.has_pin,
  hasPassword: row.has_password,
});

export async function facilityScopes(database: Database): Promise<{ facilityId: string; organisationId: string }[]> {
  return database.withoutScope(
    (tx) =>
      tx.$queryRaw<
        { facilityId: string; organisationId: string }[]
      >`SELECT facility_id AS "facilityId", organisation_id AS "organisationId" FROM facility_ids()`,
  );
}

export async function isFounded(database: Database): Promise<boolean> {
  const [row] = await database.withoutScope(
    (tx) => tx.$queryRaw<{ founded: boolean }[]>`SELECT is_founded() AS founded`,
  );
  return row?.founded ?? false;
}

export async function peopleToTry(
  database: Database,
): Promise<{ userId: string; name: string; facility: string; roles: Role[] }[]> {
  return database.withoutScope(
    (tx) =>
      tx.$queryRaw<
        { userId: string; name: string; facility: string; roles: Role[] }[]
      >`SELECT user_id AS "userId", name, facility, roles FROM people_to_try()`,
  );
}
