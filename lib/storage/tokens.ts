import type { Role } from "@/lib/domain/vocabulary";
import type { Database, Tx } from "@/lib/storage/client";
import { type Begun, facilityOf } from "@/lib/storage/command-frame";
import { type Instant, type Timestamp, timestampOf } from "@/lib/units/time";

export interface StoredToken {
  readonly id: string;
  readonly name: string;
  readonly reads: boolean;
  readonly commands: readonly string[];
  readonly person: { readonly id: string; readonly name: string };
  readonly createdAt: Timestamp;
  readonly endsAt: Timestamp;
  readonly revokedAt: Timestamp | null;
  readonly lastUsedAt: Timestamp | null;
}

/** The facility's tokens, those in use first. */
export async function apiTokens(tx: Tx, facilityId: string): Promise<StoredToken[]> {
  const [row] = await tx.$queryRaw<{ tokens: StoredToken[] }[]>`
    SELECT coalesce(json_agg(x), '[]') AS tokens FROM (
      SELECT t.id, t.name, t.reads, t.commands, json_build_object('id', p.id, 'name', p.name) AS person,
        to_char(t.created_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "createdAt",
        to_char(t.ends_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "endsAt",
        to_char(t.revoked_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "revokedAt",
        to_char(t.last_used_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "lastUsedAt"
      FROM api_token t JOIN person p ON p.id = t.person_id
      WHERE t.facility_id = ${facilityId}::uuid ORDER BY t.revoked_at IS NOT NULL, t.name, t.created_at) x`;
  return row?.tokens ?? [];
}

export interface NewToken {
  readonly id: string;
  readonly name: string;
  readonly tokenHash: string;
  readonly reads: boolean;
  readonly commands: readonly string[];
  readonly personId: string;
  readonly at: Instant;
  readonly endsAt: Instant;
}

/** False when the name or the token is taken. */
export async function insertToken(tx: Tx, facilityId: string, token: NewToken): Promise<boolean> {
  const inserted = await tx.$executeRaw`
    INSERT INTO api_token (facility_id, id, name, token_hash, reads, commands, person_id, created_at, ends_at)
    VALUES (${facilityId}::uuid, ${token.id}::uuid, ${token.name}, ${token.tokenHash}, ${token.reads}, ${[...token.commands]}::text[],
      ${token.personId}::uuid, ${timestampOf(token.at)}::timestamptz, ${timestampOf(token.endsAt)}::timestamptz)
    ON CONFLICT DO NOTHING`;
  return inserted === 1;
}

export async function revokeToken(tx: Tx, facilityId: string, id: string, by: string, at: Instant): Promise<boolean> {
  const revoked = await tx.$executeRaw`
    UPDATE api_token SET revoked_at = ${timestampOf(at)}::timestamptz, revoked_by = ${by}::uuid
    WHERE facility_id = ${facilityId}::uuid AND id = ${id}::uuid AND revoked_at IS NULL`;
  await tx.$queryRaw`SELECT pg_notify('yokeboard', ${JSON.stringify({ session: id })})::text AS sent`;
  return revoked === 1;
}

export interface FoundToken {
  readonly tokenId: string;
  readonly tokenName: string;
  readonly reads: boolean;
  readonly commands: readonly string[];
  readonly personId: string;
  readonly name: string;
  readonly userId: string;
  readonly organisationId: string;
  readonly facility: Begun["facility"];
  readonly roles: readonly Role[];
}

type FoundRow = Omit<FoundToken, "facility"> & { facility: Parameters<typeof facilityOf>[0] };

/** The token behind a hash while it is good at that moment. */
export async function findToken(database: Database, hash: string, at: Instant): Promise<FoundToken | null> {
  const [row] = await database.withoutScope(
    (tx) => tx.$queryRaw<FoundRow[]>`
      SELECT token_id AS "tokenId", token_name AS "tokenName", reads, commands, person_id AS "personId", name, user_id AS "userId",
        organisation_id AS "organisationId", facility, roles FROM find_api_token(${hash}, ${timestampOf(at)}::timestamptz)`,
  );
  return row ? { ...row, facility: facilityOf(row.facility) } : null;
}

export async function tokenUsed(database: Database, tokenId: string, at: Instant): Promise<void> {
  await database.withoutScope(
    (tx) => tx.$queryRaw`SELECT api_token_used(${tokenId}::uuid, ${timestampOf(at)}::timestamptz)::text AS used`,
  );
}
