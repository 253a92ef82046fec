import type { Scope, Tx } from "@/lib/storage/client";
import { type Instant, type LocalDate, timestampOf } from "@/lib/units/time";

/**
 * Lists and service plans are kept as they are now. What they said before stays here, with the moment from which they said it, so
 * that a past morning is judged by the list of that morning.
 */
export interface ListVersion {
  readonly roomId: string;
  readonly date: LocalDate;
  readonly firstCase: string | null;
  readonly ends: string | null;
  readonly needs: readonly string[];
  readonly setUpMinutes: number;
  /** The day's own list was taken away: from then on the weekly template holds. */
  readonly removed?: boolean;
}

export async function recordListVersions(
  tx: Tx,
  scope: Scope,
  lists: readonly ListVersion[],
  at: Instant,
): Promise<void> {
  if (lists.length === 0) return;
  await tx.$executeRaw`
    INSERT INTO fact.list_version (facility_id, room_id, date, recorded_at, removed, first_case, ends_at, needs, set_up_minutes)
    SELECT ${scope.facilityId}::uuid, i."roomId", i.date, ${timestampOf(at)}::timestamptz, coalesce(i.removed, false), i."firstCase", i.ends, i.needs, i."setUpMinutes"
    FROM jsonb_to_recordset(${JSON.stringify(lists)}::jsonb)
      AS i("roomId" uuid, date date, removed boolean, "firstCase" text, ends text, needs text[], "setUpMinutes" int)
    ON CONFLICT DO NOTHING`;
}

export interface ServiceVersion {
  readonly workstationId: string;
  readonly plan: string;
  readonly due: LocalDate;
  readonly windowFrom: LocalDate;
  readonly windowTo: LocalDate;
}

export async function recordServiceVersions(
  tx: Tx,
  scope: Scope,
  plans: readonly ServiceVersion[],
  at: Instant,
): Promise<void> {
  if (plans.length === 0) return;
  await tx.$executeRaw`
    INSERT INTO fact.service_version (facility_id, workstation_id, plan, recorded_at, due, window_from, window_to)
    SELECT ${scope.facilityId}::uuid, i."workstationId", i.plan, ${timestampOf(at)}::timestamptz, i.due, i."windowFrom", i."windowTo"
    FROM jsonb_to_recordset(${JSON.stringify(plans)}::jsonb) AS i("workstationId" uuid, plan text, due date, "windowFrom" date, "windowTo" date)
    ON CONFLICT DO NOTHING`;
}
