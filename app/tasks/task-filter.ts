import { countText } from "@/app/_parts/format";
import type { Role } from "@/lib/domain/vocabulary";
import type { TaskView } from "@/lib/schemas/task";

export const WHOSE = ["for-me", "mine", "all"] as const;
export type Whose = (typeof WHOSE)[number];
export const ORDERS = ["plan", "walk"] as const;
export type TaskOrder = (typeof ORDERS)[number];

/** Which tasks somebody wants to see, and in which order. It stands in the address, so that it can be kept and gone back to. */
export interface TaskFilter {
  readonly suite: string | null;
  readonly whose: Whose;
  /** The plan as the server made it, or the same work suite by suite as it is walked. */
  readonly order: TaskOrder;
}

export interface Viewer {
  readonly personId: string;
  readonly roles: readonly Role[];
}

/** What an address asks for; a word it does not know asks for nothing. */
export function taskFilterOf(params: Pick<URLSearchParams, "get">): TaskFilter {
  const whose = params.get("whose");
  const order = params.get("order");
  return {
    suite: params.get("suite") || null,
    whose: WHOSE.find((one) => one === whose) ?? "for-me",
    order: ORDERS.find((one) => one === order) ?? "plan",
  };
}

export function taskAddress({ suite, whose, order }: TaskFilter): string {
  const params = new URLSearchParams();
  if (order !== "plan") params.set("order", order);
  if (whose !== "for-me") params.set("whose", whose);
  if (suite !== null) params.set("suite", suite);
  return params.size === 0 ? "/tasks" : `/tasks?${params}`;
}

/** Taken by this person, or a check that they have open without having taken the task first. */
export const isMine = (task: TaskView, { personId }: Viewer): boolean =>
  task.claim ? task.claim.personId === personId : task.openCheckId !== null;

export const mayDoIt = (task: TaskView, { roles }: Viewer): boolean => task.mayDo.some((role) => roles.includes(role));

const TESTS: Record<Whose, (task: TaskView, viewer: Viewer) => boolean> = {
  "for-me": (task, viewer) => isMine(task, viewer) || mayDoIt(task, viewer),
  mine: isMine,
  all: () => true,
};

/** The tasks that a filter leaves, in the server's order. */
export const shownTasks = (tasks: readonly TaskView[], { suite, whose }: TaskFilter, viewer: Viewer): TaskView[] =>
  tasks.filter((task) => (suite === null || task.room?.suite === suite) && TESTS[whose](task, viewer));

/** Suites that have work, in the order in which they are walked. */
export function suitesOf(tasks: readonly TaskView[]): string[] {
  const first = new Map<string, number>();
  for (const { room, walkingOrder } of tasks)
    if (room) first.set(room.suite, Math.min(walkingOrder, first.get(room.suite) ?? Number.POSITIVE_INFINITY));
  return [...first].sort(([, left], [, right]) => left - right).map(([suite]) => suite);
}

/** The answer to "what is there to do": checks counted apart from what was found. */
export function inOneSentence(tasks: readonly TaskView[], viewer: Viewer): string {
  if (tasks.length === 0) return "Nothing is waiting.";
  const checks = tasks.filter(({ kind, room }) => kind === "check" && room !== null).length;
  const spares = tasks.filter(({ kind, room }) => kind === "check" && room === null).length;
  const stopping = tasks.filter(
    ({ kind, severity }) => kind !== "check" && (severity === "stops" || severity === "out"),
  ).length;
  const others = tasks.filter(
    ({ kind, severity }) => kind !== "check" && severity !== "stops" && severity !== "out",
  ).length;
  const parts = [
    stopping > 0 ? `${countText(stopping, "task")} that ${stopping === 1 ? "stops" : "stop"} a room` : null,
    checks > 0 ? `${countText(checks, "room")} to check` : null,
    spares > 0
      ? countText(spares, checks > 0 ? "spare" : "spare to check", checks > 0 ? "spares" : "spares to check")
      : null,
    others > 0 ? countText(others, stopping + checks > 0 ? "other task" : "task") : null,
  ].filter((part) => part !== null);
  const mine = tasks.filter((task) => isMine(task, viewer)).length;
  const last = parts.pop() ?? "";
  const all = parts.length > 0 ? `${parts.join(", ")} and ${last}` : last;
  return `${all}.${mine > 0 ? ` You are on ${mine}.` : ""}`;
}
