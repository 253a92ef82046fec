import type { Trend } from "@/lib/domain/evidence";
import { itemOf } from "@/lib/domain/items";
import { type CheckItem, expandProcedure } from "@/lib/domain/procedure/decide";
import { trendChange, trendOf } from "@/lib/domain/trends/decide";
import type { TrendChange } from "@/lib/domain/trends/model";
import type { Tx } from "@/lib/storage/client";
import type { Begun } from "@/lib/storage/command-frame";
import { type Holder, loadEvidence } from "@/lib/storage/evidence";
import { everyHolder } from "@/lib/storage/places";
import { readingSeries, type SeriesPoint, seriesKey } from "@/lib/storage/reading-series";
import { insertTrends } from "@/lib/storage/trends";
import type { Instant } from "@/lib/units/time";

type Written = readonly Pick<CheckItem, "item" | "subject">[];

/**
 * After readings were written, and before they are judged: where each of them is heading now. Costs one read when there is anything
 * measured among them, and a write only when an answer changed.
 */
export async function renewTrends(
  tx: Tx,
  facilityId: string,
  holder: Holder,
  written: Written,
  now: Instant,
): Promise<void> {
  const keys = new Set(written.map(({ item, subject }) => seriesKey(item, subject.id)));
  await insertTrends(tx, facilityId, await changesAt(tx, facilityId, holder, keys, now), now);
}

/** The trends of a whole facility again, from its readings. */
export async function renewAllTrends(tx: Tx, begun: Begun, now: Instant): Promise<void> {
  const { facilityId } = begun.scope;
  const { rooms, workstations } = await everyHolder(tx, facilityId);
  for (const holder of await loadEvidence(tx, begun, rooms, workstations, now))
    await insertTrends(tx, facilityId, await changesAt(tx, facilityId, holder, null, now), now);
}

async function changesAt(
  tx: Tx,
  facilityId: string,
  holder: Holder,
  keys: ReadonlySet<string> | null,
  now: Instant,
): Promise<TrendChange[]> {
  const { workstationId, procedure, evidence } = holder;
  if (!workstationId || !procedure) return [];
  const measured = expandProcedure(procedure, evidence).filter(
    ({ item, subject, form, limits }) =>
      limits !== null &&
      (form.kind === "number" || form.kind === "gauge") &&
      (keys === null || keys.has(seriesKey(item, subject.id))),
  );
  if (measured.length === 0) return [];
  const series = await readingSeries(tx, facilityId, workstationId, evidence.room?.id ?? null, now);
  return measured.flatMap((asked) => changeOf(asked, series, holder) ?? []);
}

function changeOf(
  { item, subject, limits }: CheckItem,
  series: ReadonlyMap<string, readonly SeriesPoint[]>,
  { evidence }: Holder,
): TrendChange | null {
  const keeperId = itemOf(item).about === "room" ? evidence.room?.id : evidence.workstation?.id;
  if (keeperId === undefined) return null;
  const readings = series.get(seriesKey(item, subject.id)) ?? [];
  const question = { item, subject, readings, limits, timeZone: evidence.facility.timeZone };
  const trend = trendChange(standingOf(evidence.trends, { item, subject }), trendOf(question), question);
  return trend && { keeperId, trend };
}

const standingOf = (trends: readonly Trend[], { item, subject }: Pick<CheckItem, "item" | "subject">): Trend | null =>
  trends.find((trend) => trend.item === item && trend.subject.id === subject.id) ?? null;
