import type { HeadKey, SignedHead } from "@/lib/domain/history/model";
import type { Tx } from "@/lib/storage/client";
import { type Instant, type Timestamp, timestampOf } from "@/lib/units/time";

export interface Frontier {
  readonly size: number;
  readonly nodes: readonly Uint8Array[];
}

/** Two instances never promise at once, and never with two new keys. */
export async function lockHeads(tx: Tx, facilityId: string): Promise<void> {
  await tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`heads:${facilityId}`}, 0))::text AS locked`;
}

export async function frontier(tx: Tx, facilityId: string): Promise<Frontier> {
  const row = await tx.frontier.findUniqueOrThrow({ where: { facilityId } });
  return { size: Number(row.size), nodes: row.nodes };
}

export interface KeyInUse {
  readonly id: string;
  readonly publicKey: string;
  readonly sealed: Uint8Array | null;
  readonly madeAt: number;
}

export async function keyInUse(tx: Tx, facilityId: string): Promise<KeyInUse | null> {
  const row = await tx.headKey.findFirst({ where: { facilityId, retiredAt: null } });
  return row && { id: row.id, publicKey: row.publicKey, sealed: row.sealed, madeAt: row.madeAt.getTime() };
}

/** The new key takes the old one's place, whose private half is wiped. */
export async function replaceKey(
  tx: Tx,
  facilityId: string,
  key: { readonly id: string; readonly publicKey: string; readonly sealed: Uint8Array },
  at: Instant,
): Promise<void> {
  const time = timestampOf(at);
  await tx.$executeRaw`
    UPDATE history.head_key SET retired_at = ${time}::timestamptz, sealed = NULL WHERE facility_id = ${facilityId}::uuid AND retired_at IS NULL`;
  await tx.$executeRaw`
    INSERT INTO history.head_key (facility_id, id, public_key, sealed, made_at)
    VALUES (${facilityId}::uuid, ${key.id}, ${key.publicKey}, ${Buffer.from(key.sealed)}, ${time}::timestamptz)`;
}

export async function headKeys(tx: Tx, facilityId: string): Promise<HeadKey[]> {
  return tx.$queryRaw<HeadKey[]>`
    SELECT id, public_key AS "publicKey", to_char(made_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "madeAt",
      to_char(retired_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "retiredAt"
    FROM history.head_key WHERE facility_id = ${facilityId}::uuid ORDER BY made_at`;
}

export type StoredHead = SignedHead & { readonly sent: readonly string[] };

/** The signed heads, oldest first; only the newest few when asked. */
export async function treeHeads(tx: Tx, facilityId: string, most: number | null = null): Promise<StoredHead[]> {
  const rows = await tx.$queryRaw<(Omit<StoredHead, "size"> & { size: bigint })[]>`
    SELECT * FROM (
      SELECT facility_id::text AS facility, to_char(at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS at, size, encode(root, 'hex') AS root,
        key_id AS key, encode(signature, 'base64') AS signature, coalesce(sent, '{}') AS sent
      FROM history.tree_head WHERE facility_id = ${facilityId}::uuid ORDER BY tree_head.at DESC LIMIT ${most}::int) newest
    ORDER BY at`;
  // PostgreSQL breaks long base64 into lines.
  return rows.map((row) => ({ ...row, size: Number(row.size), signature: row.signature.replaceAll("\n", "") }));
}

export async function insertHead(tx: Tx, head: SignedHead): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO history.tree_head (facility_id, at, size, root, key_id, signature, sent)
    VALUES (${head.facility}::uuid, ${head.at}::timestamptz, ${head.size}::bigint, decode(${head.root}, 'hex'), ${head.key}, decode(${head.signature}, 'base64'), '{}')`;
}

export async function headSent(tx: Tx, facilityId: string, at: Timestamp | string, port: string): Promise<void> {
  await tx.$executeRaw`
    UPDATE history.tree_head SET sent = array_append(sent, ${port}) WHERE facility_id = ${facilityId}::uuid AND at = ${at}::timestamptz AND NOT ${port} = ANY (sent)`;
}

/** The hash of each of the first leaves, in order: 32 bytes an entry. */
export async function leafHashes(tx: Tx, facilityId: string, size: number): Promise<Uint8Array[]> {
  const rows = await tx.$queryRaw<{ hash: Uint8Array }[]>`
    SELECT hash FROM history.leaf WHERE facility_id = ${facilityId}::uuid AND sequence < ${size}::bigint ORDER BY sequence`;
  return rows.map(({ hash }) => hash);
}

export interface ExportedLeaf {
  readonly sequence: number;
  readonly at: string;
  readonly body: string;
  readonly hash: string;
}

/** A page of leaves in their order, of one room, one person or a span of time where asked. */
export async function leavesFrom(
  tx: Tx,
  facilityId: string,
  asked: {
    readonly after: number;
    readonly below: number;
    readonly limit: number;
    readonly room?: string | undefined;
    readonly person?: string | undefined;
    readonly from?: Instant | undefined;
    readonly to?: Instant | undefined;
  },
): Promise<ExportedLeaf[]> {
  const time = (at: Instant | undefined) => (at === undefined ? null : timestampOf(at));
  const rows = await tx.$queryRaw<{ sequence: bigint; at: string; body: string; hash: string }[]>`
    SELECT l.sequence, to_char(l.at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS at, l.body, encode(l.hash, 'hex') AS hash
    FROM history.leaf l
    WHERE l.facility_id = ${facilityId}::uuid AND l.sequence > ${asked.after}::bigint AND l.sequence < ${asked.below}::bigint
      AND (${asked.room ?? null}::text IS NULL OR (l.body::jsonb #> '{entry,rooms}') @> jsonb_build_array(jsonb_build_object('id', ${asked.room ?? null}::text)))
      AND (${asked.person ?? null}::text IS NULL OR l.body::jsonb #>> '{entry,person,id}' = ${asked.person ?? null}::text)
      AND (${time(asked.from)}::timestamptz IS NULL OR l.at >= ${time(asked.from)}::timestamptz)
      AND (${time(asked.to)}::timestamptz IS NULL OR l.at < ${time(asked.to)}::timestamptz)
    ORDER BY l.sequence LIMIT ${asked.limit}`;
  return rows.map((row) => ({ ...row, sequence: Number(row.sequence) }));
}
