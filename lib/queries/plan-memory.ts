import { createHash } from "node:crypto";
import type { DutyNow } from "@/lib/domain/duty/model";
import { type OrderInput, orderByPlan } from "@/lib/domain/plan-order";
import type { PlacedTask } from "@/lib/domain/task/model";
import { type Instant, MINUTE } from "@/lib/units/time";

type Standing = Omit<PlacedTask<unknown>, "task"> & { readonly key: string };
interface Kept {
  readonly of: string;
  readonly order: readonly Standing[];
}

const MOST_FACILITIES = 200;
const shared = globalThis as { __yokeboardPlans?: Map<string, Kept> };

/**
 * The plan of a facility, searched for once a minute and once a change, whoever asks: a search takes longer than everything else that the
 * list of tasks needs, and all screens ask at the same moment, when something has changed.
 */
export function plannedOnce<Task extends OrderInput>(
  facilityId: string,
  tasks: readonly Task[],
  duty: DutyNow,
  now: Instant,
): PlacedTask<Task>[] {
  shared.__yokeboardPlans ??= new Map();
  const plans = shared.__yokeboardPlans;
  const of = fingerprint(tasks, duty, now);
  let kept = plans.get(facilityId);
  if (kept?.of !== of) {
    const order = orderByPlan(tasks, duty, now).map(({ task, ...standing }) => ({ ...standing, key: task.key }));
    kept = { of, order };
    if (plans.size >= MOST_FACILITIES) plans.clear();
    plans.set(facilityId, kept);
  }
  const byKey = new Map(tasks.map((task) => [task.key, task]));
  return kept.order.flatMap(({ key, ...standing }) => {
    const task = byKey.get(key);
    return task ? [{ task, ...standing }] : [];
  });
}

function fingerprint(tasks: readonly OrderInput[], duty: DutyNow, now: Instant): string {
  const looked = tasks.map((task) => [
    [task.key, task.severity, task.minutes, task.mayDo, task.roomId, task.roomName, task.suite, task.walkingOrder],
    [task.firstCase, task.setUpMinutes, task.claim, task.lacksParts],
  ]);
  return createHash("sha256")
    .update(JSON.stringify([Math.floor(now / MINUTE), duty, looked]))
    .digest("base64");
}
