import type { DutyNow } from "@/lib/domain/duty/model";
import { planWork } from "@/lib/domain/plan/decide";
import type { PlannedTask, PlanPerson, PlanTask } from "@/lib/domain/plan/model";
import type { PlacedTask, TaskDraft, TaskPlace } from "@/lib/domain/task/model";
import { orderTasks } from "@/lib/domain/task-order";
import { type Instant, instantOf, later, MINUTE, timestampOf } from "@/lib/units/time";

/** What the order of the work looks at. */
export interface OrderInput extends Pick<TaskDraft, "key" | "severity" | "minutes" | "mayDo">, TaskPlace {
  readonly roomId: string | null;
  readonly suite: string | null;
  readonly claim: { readonly personId: string; readonly name: string; readonly at: Instant } | null;
  readonly lacksParts: boolean;
}

/**
 * The open tasks in the order of the plan for whoever is on duty, by the minute at which each would be begun; then what nobody on duty can
 * do. Where no roster says who is there, a plan for nobody would mislead: then they stand by consequence, first case and walk alone.
 */
export function orderByPlan<Task extends OrderInput>(
  tasks: readonly Task[],
  duty: DutyNow,
  now: Instant,
): PlacedTask<Task>[] {
  const ranked = orderTasks(tasks, now);
  if (!duty.onRoster || duty.people.length === 0) return ranked;
  const positions = positionsOf(tasks);
  const people = workersOf(tasks, duty, now);
  const plan = planWork(
    tasks.map((task) => planTaskOf(task, positions)),
    people,
    now,
  );
  const names = new Map(people.map(({ id, name }) => [id, name]));
  const byKey = new Map(tasks.map((task) => [task.key, task]));
  const planned = plan.tasks.flatMap((one) => {
    const task = byKey.get(one.key);
    return task ? [placedOf(task, one, names)] : [];
  });
  const left = new Map(plan.unplanned.map(({ key, why }) => [key, why]));
  const unplanned = ranked.flatMap(({ task }) => {
    const why = left.get(task.key);
    return why === undefined ? [] : [{ task, placed: why, ifItWaits: null, plannedFor: null }];
  });
  return [...planned, ...unplanned];
}

function placedOf<Task>(task: Task, one: PlannedTask, names: ReadonlyMap<string, string>): PlacedTask<Task> {
  return {
    task,
    placed: one.why,
    ifItWaits: one.ifItWaits,
    plannedFor: {
      personId: one.personId,
      name: names.get(one.personId) ?? "",
      at: timestampOf(one.start),
      lateMinutes: one.lateMinutes,
    },
  };
}

/** Who is on duty, and whoever has begun something without being on the roster: that stays with them, and nothing more is planned for them. */
function workersOf(tasks: readonly OrderInput[], { people }: DutyNow, now: Instant): PlanPerson[] {
  const onDuty = people.map(({ personId, name, roles, until }) => ({
    id: personId,
    name,
    roles,
    from: now,
    until,
    walkingOrder: null,
  }));
  const known = new Set(onDuty.map(({ id }) => id));
  const others = new Map(
    tasks.flatMap(({ claim }) => (claim && !known.has(claim.personId) ? [[claim.personId, claim.name] as const] : [])),
  );
  const until = later(now, MINUTE);
  return [
    ...onDuty,
    ...[...others].map(([id, name]) => ({ id, name, roles: [], from: now, until, walkingOrder: null })),
  ];
}

/** Suites lie further apart than neighbouring rooms. Own choice, no source: only the ranking of routes depends on it. */
const STEPS_BETWEEN_SUITES = 4;

/** The walk in steps: rooms that have work follow each other, whatever numbers their order was written with. */
function positionsOf(tasks: readonly OrderInput[]): ReadonlyMap<number, number> {
  const places = new Map(tasks.map(({ walkingOrder, suite }) => [walkingOrder, suite]));
  let step = 0;
  let before: string | null | undefined;
  const positions = new Map<number, number>();
  for (const [place, suite] of [...places].sort(([left], [right]) => left - right)) {
    step += before === undefined ? 0 : suite === before ? 1 : STEPS_BETWEEN_SUITES;
    before = suite;
    positions.set(place, step);
  }
  return positions;
}

function planTaskOf(task: OrderInput, positions: ReadonlyMap<number, number>): PlanTask {
  const { key, roomId, roomName, minutes, severity, mayDo, setUpMinutes, firstCase, claim, lacksParts } = task;
  return {
    key,
    roomId,
    roomName,
    walkingOrder: positions.get(task.walkingOrder) ?? 0,
    minutes,
    severity,
    mayDo,
    readyBy: firstCase === null ? null : later(instantOf(firstCase), -setUpMinutes * MINUTE),
    setUpMinutes,
    begun: claim && { personId: claim.personId, at: claim.at },
    lacksParts,
  };
}
