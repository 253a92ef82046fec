import type { Candidate, PartKind } from "@/lib/domain/part/model";
import { type Sql, sql, type Tx } from "@/lib/storage/client";

/** Which table keeps a kind of part. */
const TABLES: Readonly<Record<PartKind, Sql>> = {
  vaporizer: sql`vaporizer`,
  absorbent: sql`absorbent`,
  "oxygen-sensor": sql`oxygen_sensor`,
};
const AGENT: Readonly<Record<PartKind, Sql>> = {
  vaporizer: sql`v.agent`,
  absorbent: sql`NULL::text`,
  "oxygen-sensor": sql`NULL::text`,
};
const SENSOR: Readonly<Record<PartKind, Sql>> = {
  vaporizer: sql`NULL::text`,
  absorbent: sql`NULL::text`,
  "oxygen-sensor": sql`v.kind`,
};

/** A part by its id or by the tag on it. */
export async function findPart(
  tx: Tx,
  facilityId: string,
  kind: PartKind,
  by: { readonly id: string } | { readonly tag: string },
): Promise<Candidate | null> {
  const id = "id" in by ? by.id : null;
  const tag = "tag" in by ? by.tag : null;
  const [row] = await tx.$queryRaw<Omit<Candidate, "kind">[]>`
    SELECT v.id, v.tag, ${AGENT[kind]} AS agent, ${SENSOR[kind]} AS "sensorKind", v.store_id AS "storeId",
      EXISTS (SELECT FROM fact.fitting t WHERE t.facility_id = v.facility_id AND t.item_id = v.id) AS used,
      (SELECT json_build_object('workstationId', w.id, 'tag', w.tag, 'position', t.position)
       FROM fact.fitting t JOIN workstation w ON w.facility_id = t.facility_id AND w.id = t.workstation_id
       WHERE t.facility_id = v.facility_id AND t.item_id = v.id AND t."to" IS NULL) AS "fittedTo"
    FROM ${TABLES[kind]} v
    WHERE v.facility_id = ${facilityId}::uuid AND (v.id = ${id}::uuid OR lower(v.tag) = lower(${tag}::text))`;
  return row ? { ...row, kind } : null;
}

/** Where a part is kept once it is off; none for what is fitted, or used up. */
export async function keepPart(
  tx: Tx,
  facilityId: string,
  kind: PartKind,
  partId: string,
  storeId: string | null,
): Promise<void> {
  await tx.$executeRaw`
    UPDATE ${TABLES[kind]} SET store_id = ${storeId}::uuid WHERE facility_id = ${facilityId}::uuid AND id = ${partId}::uuid`;
}

/** A new charge of the same product, or a new sensor of the same kind, with the next number after the old one's tag. */
export async function sameAgain(
  tx: Tx,
  facilityId: string,
  kind: "absorbent" | "oxygen-sensor",
  like: string,
  id: string,
): Promise<string | null> {
  const columns =
    kind === "absorbent" ? sql`product, indicator, reverts, strong_base, litres_per_100g, mass_g` : sql`kind`;
  const [row] = await tx.$queryRaw<{ tag: string }[]>`
    WITH old AS (
      SELECT p.*, regexp_replace(p.tag, '/[0-9]+$', '') AS base FROM ${TABLES[kind]} p
      WHERE p.facility_id = ${facilityId}::uuid AND p.id = ${like}::uuid),
    next AS (
      SELECT coalesce(max(substring(p.tag FROM '/([0-9]{1,6})$')::int), 1) + 1 AS number FROM ${TABLES[kind]} p, old
      WHERE p.facility_id = old.facility_id AND (p.tag = old.base OR starts_with(p.tag, old.base || '/')))
    INSERT INTO ${TABLES[kind]} (facility_id, id, tag, ${columns}, store_id)
    SELECT old.facility_id, ${id}::uuid, old.base || '/' || next.number, ${columns}, NULL FROM old, next
    ON CONFLICT DO NOTHING RETURNING tag`;
  return row?.tag ?? null;
}
