import type { Tx } from "@/lib/storage/client";
import { type Instant, timestampOf } from "@/lib/units/time";

export interface TaskStep {
  readonly id: string;
  readonly key: string;
  readonly kind: "started" | "paused" | "handed-over" | "taken-over" | "cannot-do";
  readonly personId: string;
  readonly otherPerson: string | null;
  readonly reason: string | null;
  readonly at: Instant;
}

/** What somebody said of a task. Two words within one millisecond keep their order, since the last one is what counts. */
export async function insertTaskStep(tx: Tx, facilityId: string, step: TaskStep): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO fact.task_step (facility_id, id, task_key, kind, person_id, other_person, reason, at)
    SELECT ${facilityId}::uuid, ${step.id}::uuid, ${step.key}, ${step.kind}, ${step.personId}::uuid, ${step.otherPerson}::uuid, ${step.reason},
      greatest(${timestampOf(step.at)}::timestamptz,
        (SELECT max(s.at) + interval '1 millisecond' FROM fact.task_step s WHERE s.facility_id = ${facilityId}::uuid AND s.task_key = ${step.key}))`;
}
