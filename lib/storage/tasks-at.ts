import { judge } from "@/lib/domain/judge";
import { tasksFor } from "@/lib/domain/task/decide";
import type { TaskDraft } from "@/lib/domain/task/model";
import type { Tx } from "@/lib/storage/client";
import { type Holder, loadEvidence } from "@/lib/storage/evidence";
import type { Frame } from "@/lib/storage/facility-frame";
import { overtakenHolders } from "@/lib/storage/places";
import { type OpenTask, openTasks } from "@/lib/storage/tasks";
import type { Instant } from "@/lib/units/time";

export interface Only {
  readonly key?: string;
  readonly holders?: readonly string[];
}

export interface TasksAt {
  readonly tasks: readonly OpenTask[];
  /** The places whose stored answer the clock has overtaken, as they are now. */
  readonly judgedNow: ReadonlyMap<string, Holder>;
}

/**
 * The open tasks as they are at this moment. Stored tasks follow from a stored answer, and the clock may have overtaken that: such a
 * place is judged here, its old work is gone and its new work is there, to the instant, whether or not anything has stored it yet.
 */
export async function openTasksAt(tx: Tx, frame: Frame, now: Instant, only: Only = {}): Promise<TasksAt> {
  const { facilityId } = frame.scope;
  const due = await overtakenHolders(tx, facilityId, now, only.holders ?? null);
  if (due.rooms.length + due.workstations.length === 0)
    return { tasks: await openTasks(tx, facilityId, only), judgedNow: new Map() };
  // A key does not say whose it is, and a place may have work now that it had not when it was stored.
  const stored = await openTasks(tx, facilityId, only.holders ? { holders: only.holders } : {});
  const holders = await loadEvidence(tx, frame, due.rooms, due.workstations, now);
  const judgedNow = new Map(holders.map((holder) => [holder.id, holder]));
  const kept = stored.filter(({ holderId }) => !judgedNow.has(holderId));
  const fresh = holders.flatMap((holder) => tasksOf(holder, stored, now));
  const tasks = [...kept, ...fresh].filter(({ key }) => only.key === undefined || key === only.key);
  return { tasks, judgedNow };
}

export async function openTaskAt(tx: Tx, frame: Frame, now: Instant, key: string): Promise<OpenTask | null> {
  return (await openTasksAt(tx, frame, now, { key })).tasks[0] ?? null;
}

/** Work that goes on keeps who is on it; work that the clock has just made is nobody's yet. */
function tasksOf(holder: Holder, stored: readonly OpenTask[], now: Instant): OpenTask[] {
  return tasksFor(judge(holder.evidence), holder.evidence).map((draft) => {
    const known = stored.find(({ key }) => key === draft.key);
    const place = { holderKind: holder.kind, holderId: holder.id, workstationId: holder.workstationId };
    return known ? { ...known, ...place, draft } : { ...newTask(draft, now), ...place };
  });
}

const newTask = (draft: TaskDraft, now: Instant) => ({
  key: draft.key,
  draft,
  openedAt: now,
  claim: null,
  work: null,
  couldNot: [],
});
