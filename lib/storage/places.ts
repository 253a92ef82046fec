import { ENGINE_VERSION } from "@/lib/domain/judgement";
import { sql, type Tx } from "@/lib/storage/client";
import type { NoticeBody } from "@/lib/storage/command-frame";
import { type Instant, timestampOf } from "@/lib/units/time";

interface Places {
  readonly rooms: string[];
  readonly workstations: string[];
}

/** Every room and every workstation that is not retired. */
export async function everyHolder(tx: Tx, facilityId: string): Promise<Places> {
  const [row] = await tx.$queryRaw<Places[]>`
    SELECT ARRAY(SELECT id FROM room WHERE facility_id = ${facilityId}::uuid AND retired_at IS NULL ORDER BY id) AS rooms,
      ARRAY(SELECT id FROM workstation WHERE facility_id = ${facilityId}::uuid AND retired_at IS NULL ORDER BY id) AS workstations`;
  return row ?? { rooms: [], workstations: [] };
}

/** A stored answer that the clock has overtaken, or that an earlier version of the rules' code gave. */
const overtaken = (now: Instant) =>
  sql`(good_until <= ${timestampOf(now)}::timestamptz OR engine_version <> ${ENGINE_VERSION})`;

/** What the clock has made out of date, and what an earlier version of the rules' code judged. */
export async function dueHolders(tx: Tx, facilityId: string, now: Instant): Promise<Places> {
  const [row] = await tx.$queryRaw<Places[]>`
    SELECT coalesce(array_agg(holder_id ORDER BY holder_id) FILTER (WHERE holder_kind = 'room'), '{}') AS rooms,
      coalesce(array_agg(holder_id ORDER BY holder_id) FILTER (WHERE holder_kind = 'workstation'), '{}') AS workstations
    FROM derived.readiness WHERE facility_id = ${facilityId}::uuid AND ${overtaken(now)}`;
  return row ?? { rooms: [], workstations: [] };
}

/**
 * Of these places, or of all, those whose stored answer the clock has overtaken, or that an earlier version of the rules' code judged;
 * with every workstation that their evidence needs.
 */
export async function overtakenHolders(
  tx: Tx,
  facilityId: string,
  now: Instant,
  only: readonly string[] | null,
): Promise<Places> {
  const [row] = await tx.$queryRaw<Places[]>`
    SELECT coalesce(array_agg(holder_id ORDER BY holder_id) FILTER (WHERE holder_kind = 'room'), '{}') AS rooms,
      coalesce(array_agg(workstation_id ORDER BY workstation_id) FILTER (WHERE workstation_id IS NOT NULL), '{}') AS workstations
    FROM derived.readiness WHERE facility_id = ${facilityId}::uuid AND ${overtaken(now)}
      AND (${only ? [...only] : null}::uuid[] IS NULL OR holder_id = ANY (${only ? [...only] : null}::uuid[]))`;
  return row ?? { rooms: [], workstations: [] };
}

/** When something in a facility is next out of date, at once after an update of the rules' code; null when nothing will be. */
export async function nextDue(tx: Tx, facilityId: string): Promise<number | null> {
  const [row] = await tx.$queryRaw<{ next: Date | null }[]>`
    SELECT min(CASE WHEN engine_version = ${ENGINE_VERSION} THEN good_until ELSE judged_at END) AS next FROM derived.readiness WHERE facility_id = ${facilityId}::uuid`;
  return row?.next?.getTime() ?? null;
}

/** The number of entries in a facility's history: what boards compare to see whether they missed anything. */
export async function currentSequence(tx: Tx, facilityId: string): Promise<number> {
  const [row] = await tx.$queryRaw<
    { size: bigint }[]
  >`SELECT size FROM history.frontier WHERE facility_id = ${facilityId}::uuid`;
  return Number(row?.size ?? 0) - 1;
}

/** A notice has little room: more places than this are told as the whole board. */
const MOST_NAMED = 60;

/** Tells every instance about a change that the clock made; it has no history entry, so it carries the newest one's sequence. */
export async function notifyClockChange(
  tx: Tx,
  facilityId: string,
  holders: readonly { readonly kind: "room" | "workstation"; readonly id: string }[] | "all",
): Promise<void> {
  const all = holders === "all" || holders.length > MOST_NAMED;
  const notice: NoticeBody = {
    command: "clock",
    holders: all ? [] : holders.map(({ kind, id }) => ({ kind, id })),
    all,
  };
  const sequence = await currentSequence(tx, facilityId);
  await tx.$queryRaw`SELECT pg_notify('yokeboard', ${JSON.stringify({ ...notice, facility: facilityId, sequence })})::text AS sent`;
}

/** The rooms in which workstations stand now, each once; a spare stands in none. */
export async function roomsWith(tx: Tx, facilityId: string, workstations: readonly string[]): Promise<string[]> {
  const [row] = await tx.$queryRaw<{ rooms: string[] }[]>`
    SELECT ARRAY(SELECT DISTINCT room_id FROM fact.placement
      WHERE facility_id = ${facilityId}::uuid AND workstation_id = ANY (${[...workstations]}::uuid[]) AND "to" IS NULL AND room_id IS NOT NULL) AS rooms`;
  return row?.rooms ?? [];
}

/** The workstation that stands in a room now. */
export async function workstationIn(tx: Tx, facilityId: string, roomId: string): Promise<string | null> {
  const [row] = await tx.$queryRaw<{ id: string }[]>`
    SELECT workstation_id AS id FROM fact.placement WHERE facility_id = ${facilityId}::uuid AND room_id = ${roomId}::uuid AND "to" IS NULL`;
  return row?.id ?? null;
}

/** The number of a workstation; null when the facility has no such one, or has it no more. */
export async function workstationTag(tx: Tx, facilityId: string, workstationId: string): Promise<string | null> {
  const [row] = await tx.$queryRaw<{ tag: string }[]>`
    SELECT tag FROM workstation WHERE facility_id = ${facilityId}::uuid AND id = ${workstationId}::uuid AND retired_at IS NULL`;
  return row?.tag ?? null;
}
