import type { Tx } from "@/lib/storage/client";
import { type Instant, instantOf, type Timestamp, timestampOf } from "@/lib/units/time";

export async function insertFault(
  tx: Tx,
  facilityId: string,
  fault: {
    readonly id: string;
    readonly workstationId: string;
    readonly text: string;
    readonly wouldNotUse: boolean;
    readonly by: string;
    readonly at: Instant;
  },
): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO fact.fault_report (facility_id, id, workstation_id, text, would_not_use, by, at)
    VALUES (${facilityId}::uuid, ${fault.id}::uuid, ${fault.workstationId}::uuid, ${fault.text}, ${fault.wouldNotUse}, ${fault.by}::uuid, ${timestampOf(fault.at)}::timestamptz)`;
}

/** False when somebody looked at it in the meantime. */
export async function endFault(
  tx: Tx,
  facilityId: string,
  fault: { readonly id: string; readonly by: string; readonly conclusion: string; readonly at: Instant },
): Promise<boolean> {
  const ended = await tx.$executeRaw`
    UPDATE fact.fault_report SET looked_at = ${timestampOf(fault.at)}::timestamptz, looked_at_by = ${fault.by}::uuid, conclusion = ${fault.conclusion}
    WHERE facility_id = ${facilityId}::uuid AND id = ${fault.id}::uuid AND looked_at IS NULL`;
  return ended === 1;
}

export interface OpenFault {
  readonly id: string;
  readonly text: string;
  readonly wouldNotUse: boolean;
  readonly name: string;
  readonly at: Timestamp;
}

/** What was reported of a workstation and not yet looked at, with who said it. */
export async function openFaults(tx: Tx, facilityId: string, workstationId: string): Promise<OpenFault[]> {
  const [row] = await tx.$queryRaw<{ faults: (Omit<OpenFault, "at"> & { at: string })[] }[]>`
    SELECT coalesce(json_agg(x), '[]') AS faults FROM (
      SELECT q.id, q.text, q.would_not_use AS "wouldNotUse", p.name, q.at
      FROM fact.fault_report q JOIN person p ON p.id = q.by
      WHERE q.facility_id = ${facilityId}::uuid AND q.workstation_id = ${workstationId}::uuid AND q.looked_at IS NULL ORDER BY q.at, q.id) x`;
  return (row?.faults ?? []).map(({ at, ...fault }) => ({ ...fault, at: timestampOf(instantOf(at)) }));
}
