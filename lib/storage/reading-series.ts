import type { Answer } from "@/lib/domain/answer";
import type { ItemId } from "@/lib/domain/items";
import type { Tx } from "@/lib/storage/client";
import { DAY, type Instant, instantOf, later, type Timestamp, timestampOf } from "@/lib/units/time";

/** A look of a few weeks: enough to see a drift, little enough to send with a page. */
const REACH = 42 * DAY;
const MOST_EACH = 24;

export interface SeriesPoint {
  readonly at: Timestamp;
  readonly answer: Answer;
  readonly failed: boolean;
}

interface Row {
  readonly item: ItemId;
  readonly subject_id: string;
  readonly answer: Answer;
  readonly verdict: string;
  readonly observed_at: string;
}

/** The measured answers of the last weeks about one workstation and its room, oldest first, by item and subject. */
export async function readingSeries(
  tx: Tx,
  facilityId: string,
  workstationId: string,
  roomId: string | null,
  now: Instant,
): Promise<ReadonlyMap<string, readonly SeriesPoint[]>> {
  const [found] = await tx.$queryRaw<{ rows: Row[] }[]>`
    SELECT coalesce(json_agg(x ORDER BY x.observed_at), '[]') AS rows FROM (
      SELECT o.item, o.subject_id, o.answer, o.verdict, o.observed_at,
        row_number() OVER (PARTITION BY o.item, o.subject_id ORDER BY o.observed_at DESC) AS place
      FROM fact.observation o
      WHERE o.facility_id = ${facilityId}::uuid AND (o.workstation_id = ${workstationId}::uuid OR o.room_id = ${roomId}::uuid)
        AND o.observed_at > ${timestampOf(later(now, -REACH))}::timestamptz
        AND o.answer->>'kind' IN ('number', 'gauge', 'timed')
        AND NOT EXISTS (SELECT FROM fact.observation s WHERE s.facility_id = o.facility_id AND s.supersedes = o.id)) x
    WHERE x.place <= ${MOST_EACH}`;
  const series = new Map<string, SeriesPoint[]>();
  for (const { item, subject_id, answer, verdict, observed_at } of found?.rows ?? []) {
    const key = seriesKey(item, subject_id);
    const point = { at: timestampOf(instantOf(observed_at)), answer, failed: verdict === "fail" };
    series.set(key, [...(series.get(key) ?? []), point]);
  }
  return series;
}

export const seriesKey = (item: ItemId, subjectId: string): string => `${item} ${subjectId}`;
