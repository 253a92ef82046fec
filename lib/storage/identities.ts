import type { RoleMapping } from "@/lib/domain/access/model";
import type { Database, Tx } from "@/lib/storage/client";
import { type Instant, type Timestamp, timestampOf } from "@/lib/units/time";

export interface KnownIdentity {
  readonly personId: string;
  readonly organisationId: string;
  readonly name: string;
  readonly userId: string;
  readonly active: boolean;
  readonly facilities: readonly { readonly id: string; readonly name: string }[];
}

export async function findIdentity(database: Database, issuer: string, subject: string): Promise<KnownIdentity | null> {
  const [row] = await database.withoutScope(
    (tx) => tx.$queryRaw<KnownIdentity[]>`
      SELECT person_id AS "personId", organisation_id AS "organisationId", name, user_id AS "userId", active, facilities
      FROM find_identity(${issuer}, ${subject})`,
  );
  return row ?? null;
}

export interface FacilityMapping {
  readonly facilityId: string;
  readonly facilityName: string;
  readonly organisationId: string;
  readonly mapping: RoleMapping;
}

export const roleMappings = (database: Database): Promise<FacilityMapping[]> =>
  database.withoutScope(
    (tx) => tx.$queryRaw<FacilityMapping[]>`
      SELECT facility_id AS "facilityId", facility_name AS "facilityName", organisation_id AS "organisationId", mapping FROM role_mappings()`,
  );

/** False when this issuer's subject stands for somebody already. */
export async function bindIdentity(
  tx: Tx,
  identity: {
    readonly issuer: string;
    readonly subject: string;
    readonly organisationId: string;
    readonly personId: string;
    readonly at: Instant;
    readonly by: string | null;
  },
): Promise<boolean> {
  const bound = await tx.$executeRaw`
    INSERT INTO person_identity (issuer, subject, organisation_id, person_id, bound_at, bound_by)
    VALUES (${identity.issuer}, ${identity.subject}, ${identity.organisationId}::uuid, ${identity.personId}::uuid, ${timestampOf(identity.at)}::timestamptz, ${identity.by}::uuid)
    ON CONFLICT DO NOTHING`;
  return bound === 1;
}

export async function unbindIdentity(tx: Tx, issuer: string, subject: string): Promise<boolean> {
  return (await tx.$executeRaw`DELETE FROM person_identity WHERE issuer = ${issuer} AND subject = ${subject}`) === 1;
}

export interface BoundIdentity {
  readonly issuer: string;
  readonly subject: string;
  readonly personId: string;
  readonly boundAt: Timestamp;
}

export const identities = (tx: Tx): Promise<BoundIdentity[]> =>
  tx.$queryRaw<BoundIdentity[]>`
    SELECT issuer, subject, person_id AS "personId", to_char(bound_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "boundAt"
    FROM person_identity ORDER BY bound_at, issuer, subject`;
