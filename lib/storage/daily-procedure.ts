import type { Procedure } from "@/lib/domain/procedure/model";
import type { Tx } from "@/lib/storage/client";
import { type Instant, timestampOf } from "@/lib/units/time";

/** The daily check in force at that moment, whole; null where a site has none yet. */
export async function dailyProcedureAt(tx: Tx, facilityId: string, at: Instant): Promise<Procedure | null> {
  const [row] = await tx.$queryRaw<{ document: Procedure }[]>`
    SELECT document FROM procedure
    WHERE facility_id = ${facilityId}::uuid AND kind = 'daily' AND in_force_from <= ${timestampOf(at)}::timestamptz
    ORDER BY version DESC LIMIT 1`;
  return row?.document ?? null;
}
