import type { Database, Scope, Tx } from "@/lib/storage/client";
import { type Instant, timestampOf } from "@/lib/units/time";

/** Locks a session: until its person unlocks it, it writes and reads nothing, and its next signature asks for both components. */
export async function lockSession(tx: Tx, sessionId: string, at: Instant): Promise<void> {
  await tx.$executeRaw`
    UPDATE session SET locked_at = coalesce(locked_at, ${timestampOf(at)}::timestamptz), fully_signed_at = NULL
    WHERE id = ${sessionId}::uuid AND ended_at IS NULL`;
}

/** False when the session has ended. */
export async function unlockSession(tx: Tx, sessionId: string, at: Instant): Promise<boolean> {
  const unlocked = await tx.$executeRaw`
    UPDATE session SET locked_at = NULL, active_at = ${timestampOf(at)}::timestamptz, fully_signed_at = NULL
    WHERE id = ${sessionId}::uuid AND ended_at IS NULL`;
  return unlocked === 1;
}

/** One browser shows one person: whoever comes in locks the others' sessions in it, and ends an older one of their own. */
export async function comeInto(
  tx: Tx,
  session: { readonly id: string; readonly personId: string; readonly deviceHash: string; readonly at: Instant },
): Promise<void> {
  const at = timestampOf(session.at);
  await tx.$executeRaw`
    UPDATE session SET locked_at = coalesce(locked_at, ${at}::timestamptz), fully_signed_at = NULL,
      ended_at = CASE WHEN person_id = ${session.personId}::uuid THEN ${at}::timestamptz ELSE ended_at END
    WHERE device_hash = ${session.deviceHash} AND id <> ${session.id}::uuid AND ended_at IS NULL`;
}

export async function sessionWasActive(tx: Tx, sessionId: string, at: Instant, fullySigned: boolean): Promise<void> {
  const time = timestampOf(at);
  await tx.$executeRaw`
    UPDATE session SET active_at = ${time}::timestamptz, fully_signed_at = CASE WHEN ${fullySigned}::boolean THEN ${time}::timestamptz ELSE fully_signed_at END
    WHERE id = ${sessionId}::uuid AND ended_at IS NULL AND locked_at IS NULL`;
}

/** Whose session is open in one browser. */
export interface OnDevice extends Scope {
  readonly sessionId: string;
  readonly personId: string;
  readonly name: string;
  readonly userId: string;
  readonly facilityName: string;
  readonly hasPin: boolean;
}

export const sessionsOnDevice = (database: Database, deviceHash: string): Promise<OnDevice[]> =>
  database.withoutScope(
    (tx) => tx.$queryRaw<OnDevice[]>`
      SELECT session_id AS "sessionId", person_id AS "personId", name, user_id AS "userId", organisation_id AS "organisationId",
        facility_id AS "facilityId", facility_name AS "facilityName", coalesce(has_pin, false) AS "hasPin" FROM sessions_on_device(${deviceHash})`,
  );
