import type { RuleSetting } from "@/lib/domain/evidence";
import type { Scope, Tx } from "@/lib/storage/client";
import { type Holder, loadEvidence } from "@/lib/storage/evidence";
import { asKnownAt } from "@/lib/storage/evidence-when";
import { type Frame, facilityFrame } from "@/lib/storage/facility-frame";
import { type Instant, timestampOf } from "@/lib/units/time";

/**
 * The facility as it judged at a moment: by the settings in force then. Its clock, scheme and unit are as they are now, for a site
 * changes them once if ever.
 */
export async function frameAt(tx: Tx, scope: Scope, at: Instant): Promise<Frame> {
  const frame = await facilityFrame(tx, scope);
  const [row] = await tx.$queryRaw<{ version: number; document: Record<string, RuleSetting> }[]>`
    SELECT s.version, s.document FROM fact.settings_version s WHERE s.facility_id = ${scope.facilityId}::uuid
    ORDER BY (s.in_force_from <= ${timestampOf(at)}::timestamptz) DESC,
      CASE WHEN s.in_force_from <= ${timestampOf(at)}::timestamptz THEN -s.version ELSE s.version END LIMIT 1`;
  return row ? { ...frame, settings: row.document, settingsVersion: row.version } : frame;
}

/** The rooms, and the spare workstations, as they were known at a moment: the evidence that was judged then. */
export async function holdersAt(
  tx: Tx,
  frame: Frame,
  at: Instant,
  only: readonly string[] | null = null,
): Promise<Holder[]> {
  const then = timestampOf(at);
  const { facilityId } = frame.scope;
  const [row] = await tx.$queryRaw<{ rooms: string[]; workstations: string[] }[]>`
    SELECT
      ARRAY(SELECT r.id FROM room r WHERE r.facility_id = ${facilityId}::uuid AND (${only ? [...only] : null}::uuid[] IS NULL OR r.id = ANY (${only ? [...only] : null}::uuid[]))) AS rooms,
      ARRAY(SELECT p.workstation_id FROM fact.placement p WHERE p.facility_id = ${facilityId}::uuid
        AND p."from" <= ${then}::timestamptz AND (p."to" IS NULL OR p."to" > ${then}::timestamptz)
        AND (${only ? [...only] : null}::uuid[] IS NULL OR p.room_id = ANY (${only ? [...only] : null}::uuid[]) OR p.workstation_id = ANY (${only ? [...only] : null}::uuid[]))) AS workstations`;
  return loadEvidence(tx, frame, row?.rooms ?? [], row?.workstations ?? [], at, asKnownAt(at));
}
