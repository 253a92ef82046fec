import type { Trend, WorkstationEvidence } from "@/lib/domain/evidence";
import type { TrendChange } from "@/lib/domain/trends/model";
import type { Tx } from "@/lib/storage/client";
import type { TrendRow } from "@/lib/storage/evidence-rows";
import { type Instant, localDate, timestampOf } from "@/lib/units/time";

/** The trends of what stands here: a part that was taken off takes its own with it. */
export function trendsOf(
  rows: readonly TrendRow[],
  keepers: readonly (string | undefined)[],
  workstation: WorkstationEvidence | null,
): Trend[] {
  return rows
    .filter((row) => keepers.includes(row.keeper_id) && isHere(row, workstation))
    .map((row) => ({
      item: row.item,
      subject: { kind: row.subject_kind, id: row.subject_id },
      slope: row.slope,
      crossing: localDate(row.crossing),
      between: {
        from: localDate(row.crossing_from),
        to: row.crossing_to === null ? null : localDate(row.crossing_to),
      },
    }));
}

function isHere({ subject_kind: kind, subject_id: id }: TrendRow, workstation: WorkstationEvidence | null): boolean {
  const fitted = workstation?.fitted;
  if (kind === "cylinder") return fitted?.cylinders.some((part) => part.id === id) ?? false;
  if (kind === "vaporizer") return fitted?.vaporizers.some((part) => part.id === id) ?? false;
  if (kind === "absorbent") return fitted?.absorbent.some((part) => part.id === id) ?? false;
  return kind !== "oxygen-sensor" || fitted?.oxygenSensor?.id === id;
}

/** Appended, never changed: what was known at an earlier moment stays. Twice in one millisecond, the later one counts. */
export async function insertTrends(
  tx: Tx,
  facilityId: string,
  changes: readonly TrendChange[],
  at: Instant,
): Promise<void> {
  if (changes.length === 0) return;
  const rows = changes.map(({ keeperId, trend }) => ({
    keeperId,
    item: trend.item,
    subjectKind: trend.subject.kind,
    subjectId: trend.subject.id,
    slope: trend.slope,
    crossing: trend.crossing,
    from: trend.between?.from ?? null,
    to: trend.between?.to ?? null,
  }));
  await tx.$executeRaw`
    INSERT INTO derived.trend (facility_id, keeper_id, item, subject_kind, subject_id, at, slope, crossing, crossing_from, crossing_to)
    SELECT ${facilityId}::uuid, "keeperId", item, "subjectKind", "subjectId", ${timestampOf(at)}::timestamptz, slope, crossing, "from", "to"
    FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) AS i("keeperId" uuid, item text, "subjectKind" text, "subjectId" text,
      slope jsonb, crossing date, "from" date, "to" date)
    ON CONFLICT (facility_id, keeper_id, at, item, subject_id)
    DO UPDATE SET slope = excluded.slope, crossing = excluded.crossing, crossing_from = excluded.crossing_from, crossing_to = excluded.crossing_to`;
}
