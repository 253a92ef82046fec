import type { Scope, Tx } from "@/lib/storage/client";
import { notifyClockChange } from "@/lib/storage/places";

/**
 * Models belong to the organisation: what one facility changes is asked and judged in its sisters, too. Their answers about these
 * models are good no longer than the moment they were made, by whatever clock, and their boards are told, so that readers judge for themselves and the next sweep stores it.
 *
 * Each sister's settings are locked until the transaction ends: a command under way there has then either finished, and its answer is
 * marked here, or begins afterwards and reads the model as it is now. Two facilities that change models at the same moment may wait for
 * each other; the database breaks that up, and the command is tried again.
 */
export async function modelsChangedElsewhere(
  tx: Tx,
  { organisationId, facilityId }: Scope,
  models: readonly string[],
): Promise<void> {
  if (models.length === 0) return;
  const sisters = await tx.$queryRaw<{ id: string }[]>`
    SELECT id FROM facility WHERE organisation_id = ${organisationId}::uuid AND id <> ${facilityId}::uuid ORDER BY id`;
  for (const { id } of sisters) {
    await tx.$queryRaw`SELECT lock_settings(${organisationId}::uuid, ${id}::uuid)::text AS locked`;
    const marked = await tx.$executeRaw`
      UPDATE derived.readiness r SET good_until = r.judged_at
      FROM workstation w
      WHERE r.facility_id = ${id}::uuid AND w.facility_id = r.facility_id AND w.model_id = ANY (${[...models]}::uuid[])
        AND w.id = coalesce(r.workstation_id, r.holder_id)`;
    if (marked > 0) await notifyClockChange(tx, id, "all");
  }
  if (sisters.length > 0)
    await tx.$queryRaw`SELECT set_config('app.facility', ${facilityId}, true), set_config('app.organisation', ${organisationId}, true)`;
}
