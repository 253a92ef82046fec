import type { BoardSummary } from "@/lib/domain/board-summary";
import type { CheckDay } from "@/lib/domain/check-day";
import type { Tx } from "@/lib/storage/client";
import { dayListOn } from "@/lib/storage/day-list";
import type { Holder } from "@/lib/storage/evidence";
import { type Timestamp, timestampOf } from "@/lib/units/time";

/** Where a task is: its room and workstation, the list it must be ready for, and the check this person has open there. */
export interface TaskPlace {
  readonly holderId: string;
  readonly room: { readonly id: string; readonly name: string; readonly suite: string } | null;
  readonly workstation: { readonly id: string; readonly tag: string } | null;
  readonly firstCase: Timestamp | null;
  readonly setUpMinutes: number;
  readonly walkingOrder: number;
  readonly closed: boolean;
  readonly openCheckId: string | null;
}

interface PlaceRow extends Omit<TaskPlace, "firstCase" | "closed"> {
  readonly summary: BoardSummary | null;
}

/** A suite's rooms follow each other on the walk. */
const SUITE_STEP = 1_000;

export async function taskPlaces(
  tx: Tx,
  facilityId: string,
  holders: readonly string[],
  personId: string,
  today: Pick<CheckDay, "date" | "from">,
): Promise<ReadonlyMap<string, TaskPlace>> {
  if (holders.length === 0) return new Map();
  const [row] = await tx.$queryRaw<{ places: PlaceRow[] }[]>`
    SELECT coalesce(json_agg(x), '[]') AS places FROM (
      SELECT d.holder_id AS "holderId", d.summary,
        CASE WHEN r.id IS NULL THEN NULL ELSE json_build_object('id', r.id, 'name', r.name, 'suite', s.name) END AS room,
        CASE WHEN w.id IS NULL THEN NULL ELSE json_build_object('id', w.id, 'tag', w.tag) END AS workstation,
        coalesce(s.walking_order * ${SUITE_STEP}::int + r.walking_order, 1000000) AS "walkingOrder",
        coalesce((${dayListOn(today.date)}->>'set_up_minutes')::int, 0) AS "setUpMinutes",
        (SELECT c.id FROM fact.check_run c
         WHERE c.facility_id = d.facility_id AND c.workstation_id = d.workstation_id 
           AND coalesce((SELECT k.person_id FROM fact.check_takeover k WHERE k.facility_id = c.facility_id AND k.check_id = c.id ORDER BY k.at DESC, k.id LIMIT 1), c.started_by) = ${personId}::uuid
           AND NOT EXISTS (SELECT FROM fact.check_correction k WHERE k.facility_id = c.facility_id AND k.check_id = c.id)
           AND c.kind IN ('daily', 'first-user') AND c.started_at >= ${timestampOf(today.from)}::timestamptz
           AND NOT EXISTS (SELECT FROM fact.signature g WHERE g.facility_id = c.facility_id AND g.check_id = c.id AND g.meaning = 'performed')
         ORDER BY c.started_at DESC LIMIT 1) AS "openCheckId"
      FROM derived.readiness d
      LEFT JOIN room r ON d.holder_kind = 'room' AND r.facility_id = d.facility_id AND r.id = d.holder_id
      LEFT JOIN suite s ON s.facility_id = r.facility_id AND s.id = r.suite_id
      LEFT JOIN workstation w ON w.facility_id = d.facility_id AND w.id = d.workstation_id
      WHERE d.facility_id = ${facilityId}::uuid AND d.holder_id = ANY (${[...new Set(holders)]}::uuid[])) x`;
  return new Map((row?.places ?? []).map((place) => [place.holderId, placeOf(place)]));
}

function placeOf({ summary, ...rest }: PlaceRow): TaskPlace {
  return { ...rest, firstCase: summary?.firstCase ?? null, closed: summary?.occupancy.state === "closed" };
}

/** A place whose stored answer the clock has overtaken: the list and the occupancy are those of now. */
export const placeNow = (place: TaskPlace, { evidence: { room } }: Holder): TaskPlace => ({
  ...place,
  firstCase: room?.list?.firstCase ?? null,
  closed: room?.occupancy.state === "closed",
});
