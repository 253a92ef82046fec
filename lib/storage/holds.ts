import type { Role } from "@/lib/domain/vocabulary";
import type { Tx } from "@/lib/storage/client";
import { type Instant, timestampOf } from "@/lib/units/time";

export async function insertHold(
  tx: Tx,
  facilityId: string,
  hold: {
    readonly id: string;
    readonly workstationId: string;
    readonly reason: string;
    readonly by: string;
    readonly role: Role;
    readonly at: Instant;
  },
): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO fact.hold (facility_id, id, workstation_id, reason, by, role, at)
    VALUES (${facilityId}::uuid, ${hold.id}::uuid, ${hold.workstationId}::uuid, ${hold.reason}, ${hold.by}::uuid, ${hold.role}, ${timestampOf(hold.at)}::timestamptz)`;
}

/** False when somebody lifted it in the meantime. */
export async function endHold(
  tx: Tx,
  facilityId: string,
  hold: { readonly id: string; readonly by: string; readonly reason: string; readonly at: Instant },
): Promise<boolean> {
  const ended = await tx.$executeRaw`
    UPDATE fact.hold SET lifted_at = ${timestampOf(hold.at)}::timestamptz, lifted_by = ${hold.by}::uuid, lift_reason = ${hold.reason}
    WHERE facility_id = ${facilityId}::uuid AND id = ${hold.id}::uuid AND lifted_at IS NULL`;
  return ended === 1;
}

export async function insertAllowance(
  tx: Tx,
  facilityId: string,
  allowance: {
    readonly id: string;
    readonly workstationId: string;
    readonly rule: string;
    readonly personId: string;
    readonly role: Role;
    readonly measures: string;
    readonly at: Instant;
    readonly until: Instant;
    /** SHA-256 of exactly what was shown. */
    readonly boundTo: string;
  },
): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO fact.limit_allowance (facility_id, id, workstation_id, rule, person_id, role, measures, at, until, bound_to)
    VALUES (${facilityId}::uuid, ${allowance.id}::uuid, ${allowance.workstationId}::uuid, ${allowance.rule}, ${allowance.personId}::uuid, ${allowance.role},
      ${allowance.measures}, ${timestampOf(allowance.at)}::timestamptz, ${timestampOf(allowance.until)}::timestamptz, ${allowance.boundTo})`;
}

/** False when nothing of it is in force any more. Everybody's word for the one limit is taken back together. */
export async function revokeAllowances(
  tx: Tx,
  facilityId: string,
  workstationId: string,
  rule: string,
  revoked: { readonly by: string; readonly reason: string; readonly at: Instant },
): Promise<boolean> {
  const done = await tx.$executeRaw`
    UPDATE fact.limit_allowance SET revoked_at = ${timestampOf(revoked.at)}::timestamptz, revoked_by = ${revoked.by}::uuid, revoke_reason = ${revoked.reason}
    WHERE facility_id = ${facilityId}::uuid AND workstation_id = ${workstationId}::uuid AND rule = ${rule} AND revoked_at IS NULL`;
  return done > 0;
}
