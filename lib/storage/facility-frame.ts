import type { RuleSetting } from "@/lib/domain/evidence";
import type { Scope, Tx } from "@/lib/storage/client";
import { type Begun, facilityOf } from "@/lib/storage/command-frame";

/** What every reader of a facility needs first: its own row, and its settings in force. */
export type Frame = Pick<Begun, "scope" | "facility" | "settings" | "settingsVersion">;

export async function facilityFrame(tx: Tx, scope: Scope): Promise<Frame> {
  const [row] = await tx.$queryRaw<
    { facility: Parameters<typeof facilityOf>[0]; version: number; document: Record<string, RuleSetting> }[]
  >`
    SELECT to_jsonb(f) AS facility, s.version, s.document FROM facility f JOIN facility_settings s ON s.facility_id = f.id
    WHERE f.id = ${scope.facilityId}::uuid`;
  if (!row) throw new Error(`facility ${scope.facilityId} is not of organisation ${scope.organisationId}`);
  return { scope, facility: facilityOf(row.facility), settings: row.document, settingsVersion: row.version };
}
