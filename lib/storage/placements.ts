import type { Tx } from "@/lib/storage/client";
import { type Instant, timestampOf } from "@/lib/units/time";

export interface Move {
  readonly id: string;
  readonly workstationId: string;
  readonly to: { readonly roomId: string } | { readonly storeId: string };
}

/**
 * Ends where each workstation stands before any begins anew, all at one moment: two of them may change places.
 * False when a place was taken in the meantime; the exclusion constraints decide, whoever asks first.
 */
export async function moveWorkstations(
  tx: Tx,
  facilityId: string,
  moves: readonly Move[],
  at: Instant,
): Promise<boolean> {
  const now = timestampOf(at);
  await tx.$executeRaw`
    UPDATE fact.placement SET "to" = greatest(${now}::timestamptz, "from")
    WHERE facility_id = ${facilityId}::uuid AND workstation_id = ANY (${moves.map(({ workstationId }) => workstationId)}::uuid[]) AND "to" IS NULL`;
  const rows = moves.map(({ id, workstationId, to }) => ({
    id,
    workstationId,
    roomId: "roomId" in to ? to.roomId : null,
    storeId: "storeId" in to ? to.storeId : null,
  }));
  const inserted = await tx.$executeRaw`
    INSERT INTO fact.placement (facility_id, id, workstation_id, room_id, store_id, "from")
    SELECT ${facilityId}::uuid, i.id, i."workstationId", i."roomId", i."storeId", ${now}::timestamptz
    FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) AS i(id uuid, "workstationId" uuid, "roomId" uuid, "storeId" uuid)
    ON CONFLICT DO NOTHING`;
  return inserted === rows.length;
}

export interface StoredSpare {
  readonly workstationId: string;
  readonly store: { readonly id: string; readonly name: string } | null;
  readonly distance: number | null;
}

/** A suite's rooms follow each other on the walk. */
const SUITE_STEP = 1_000;

/** Workstations that stand in no room, with the number of rooms between their store and this room along the walk. */
export async function sparesFor(tx: Tx, facilityId: string, roomId: string): Promise<StoredSpare[]> {
  return tx.$queryRaw<StoredSpare[]>`
    WITH walk AS (
      SELECT r.id, s.walking_order::bigint * ${SUITE_STEP}::int + r.walking_order AS place
      FROM room r JOIN suite s ON s.facility_id = r.facility_id AND s.id = r.suite_id WHERE r.facility_id = ${facilityId}::uuid AND r.retired_at IS NULL),
    here AS (SELECT place FROM walk WHERE id = ${roomId}::uuid),
    stores AS (
      SELECT t.id, t.name, s.walking_order::bigint * ${SUITE_STEP}::int + coalesce(t.walking_order, 0) AS place
      FROM store t LEFT JOIN suite s ON s.facility_id = t.facility_id AND s.id = t.suite_id WHERE t.facility_id = ${facilityId}::uuid)
    SELECT w.id AS "workstationId",
      CASE WHEN t.id IS NULL THEN NULL ELSE json_build_object('id', t.id, 'name', t.name) END AS store,
      CASE WHEN t.place IS NULL THEN NULL ELSE
        (SELECT count(*)::int FROM walk, here WHERE walk.place > least(t.place, here.place) AND walk.place < greatest(t.place, here.place)) END AS distance
    FROM workstation w
    LEFT JOIN fact.placement p ON p.facility_id = w.facility_id AND p.workstation_id = w.id AND p."to" IS NULL
    LEFT JOIN stores t ON t.id = p.store_id
    WHERE w.facility_id = ${facilityId}::uuid AND w.retired_at IS NULL AND p.room_id IS NULL
    ORDER BY w.tag`;
}

export async function allStores(tx: Tx, facilityId: string): Promise<{ id: string; name: string }[]> {
  return tx.$queryRaw<{ id: string; name: string }[]>`
    SELECT id, name FROM store WHERE facility_id = ${facilityId}::uuid ORDER BY name`;
}
