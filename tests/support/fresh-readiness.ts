import { expect } from "vitest";
import { scopeOf } from "@/lib/auth/actor";
import { judge } from "@/lib/domain/judge";
import { tasksFor } from "@/lib/domain/task/decide";
import { loadEvidence } from "@/lib/storage/evidence";
import { facilityFrame } from "@/lib/storage/facility-frame";
import { everyHolder } from "@/lib/storage/places";
import { openTasks } from "@/lib/storage/tasks";
import { instant } from "@/lib/units/time";
import type { SmallDepartment } from "@/tests/support/small-department";

const asStored = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

/**
 * Nothing stored is stale: what is stored for each place equals what its facts say at the moment it was judged, and the open tasks
 * are the ones that follow from it. Returns the stored states by the place's name.
 */
export async function expectFresh(department: SmallDepartment): Promise<Record<string, string>> {
  const scope = scopeOf(department.admin);
  return department.database.inScope(scope, async (tx) => {
    const frame = await facilityFrame(tx, scope);
    const { rooms, workstations } = await everyHolder(tx, scope.facilityId);
    const stored = await tx.readiness.findMany();
    const open = await openTasks(tx, scope.facilityId);
    const states: Record<string, string> = {};
    for (const row of stored) {
      const holders = await loadEvidence(tx, frame, rooms, workstations, instant(row.judgedAt.getTime()));
      const holder = holders.find(({ kind, id }) => kind === row.holderKind && id === row.holderId);
      if (!holder) throw new Error(`readiness is stored for ${row.holderKind} ${row.holderId}, which is not there`);
      const name = holder.evidence.room?.name ?? holder.evidence.workstation?.tag ?? "";
      const judgement = judge(holder.evidence);
      expect({ name, judgement: row.judgement, state: row.state }).toEqual({
        name,
        judgement: asStored(judgement),
        state: judgement.state,
      });
      const tasks = open.filter(
        ({ holderKind, holderId }) => holderKind === row.holderKind && holderId === row.holderId,
      );
      const wanted = tasksFor(judgement, holder.evidence);
      const byKey = (left: { key: string }, right: { key: string }) => left.key.localeCompare(right.key);
      expect(tasks.map(({ draft }) => draft).sort(byKey)).toEqual(asStored([...wanted].sort(byKey)));
      states[name] = row.state;
    }
    return states;
  });
}
