import type { Severity } from "@/lib/domain/judgement";
import { SEVERITIES } from "@/lib/domain/judgement";
import { naturalOrder } from "@/lib/domain/natural-order";
import type { PlacedTask, TaskDraft, TaskPlace } from "@/lib/domain/task/model";
import { numeral } from "@/lib/domain/wording";
import { type Instant, instantOf, MINUTE } from "@/lib/units/time";

/**
 * The order of the work where nobody knows who is there to do it; with a roster see plan-order.ts. What somebody has begun stays on top. Then what
 * would make a first case late if it waited, by severity, by long set-up; and since twenty rooms start at the same minute, the
 * route decides the rest. Work that no start depends on comes last.
 */
export function orderTasks<Task extends Pick<TaskDraft, "key" | "severity" | "minutes"> & TaskPlace>(
  tasks: readonly Task[],
  now: Instant,
): PlacedTask<Task>[] {
  return tasks
    .map((task) => ({ task, rank: rankOf(task, now) }))
    .sort((left, right) => byRank(left.rank, right.rank) || byRoute(left.task, right.task))
    .map(({ task, rank }) => ({ task, placed: reasonFor(task, rank), ifItWaits: null, plannedFor: null }));
}

interface Rank {
  readonly claimed: boolean;
  readonly blocks: boolean;
  /** Minutes that the first case will wait if the task is begun now; zero when in time or no case is known. */
  readonly late: number;
  readonly severity: number;
  readonly firstCase: number;
  readonly setUpMinutes: number;
}

const BLOCKING: readonly Severity[] = ["out", "stops", "owed"];

function rankOf(task: Pick<TaskDraft, "severity" | "minutes"> & TaskPlace, now: Instant): Rank {
  const blocks = BLOCKING.includes(task.severity);
  const starts = task.firstCase === null ? null : instantOf(task.firstCase) - task.setUpMinutes * MINUTE;
  const done = now + task.minutes * MINUTE;
  return {
    claimed: task.claimed,
    blocks,
    late: blocks && starts !== null && done > starts ? Math.ceil((done - starts) / MINUTE) : 0,
    severity: SEVERITIES.indexOf(task.severity),
    firstCase: starts ?? Number.POSITIVE_INFINITY,
    setUpMinutes: task.setUpMinutes,
  };
}

function byRank(left: Rank, right: Rank): number {
  return (
    Number(right.claimed) - Number(left.claimed) ||
    Number(right.blocks) - Number(left.blocks) ||
    Number(right.late > 0) - Number(left.late > 0) ||
    left.severity - right.severity ||
    ascending(left.firstCase, right.firstCase) ||
    right.setUpMinutes - left.setUpMinutes
  );
}

/** Infinity less infinity is not a number, and two rooms without a first case are equal. */
const ascending = (left: number, right: number): number => (left === right ? 0 : left < right ? -1 : 1);

function byRoute(left: Pick<TaskDraft, "key"> & TaskPlace, right: Pick<TaskDraft, "key"> & TaskPlace): number {
  return (
    left.walkingOrder - right.walkingOrder ||
    naturalOrder(left.roomName ?? "", right.roomName ?? "") ||
    (left.key < right.key ? -1 : left.key > right.key ? 1 : 0)
  );
}

const SEVERITY_WORDS: Readonly<Record<Severity, string>> = {
  out: "out of service",
  stops: "stops the room",
  owed: "needed before the room can start",
  limits: "limits the room",
  due: "due, does not stop the start",
  note: "to know",
};

function reasonFor(task: Pick<TaskDraft, "severity"> & TaskPlace, rank: Rank): string {
  if (rank.claimed) return "Begun: stays where it is";
  const parts: string[] = [];
  if (rank.late > 0) parts.push(`First case ${numeral(rank.late)} min late if begun now`);
  parts.push(SEVERITY_WORDS[task.severity]);
  if (rank.blocks && task.setUpMinutes > 0) parts.push(`set-up of ${numeral(task.setUpMinutes)} min`);
  if (rank.late === 0) parts.push("then by walking order");
  const [first = "", ...rest] = parts;
  return [first.charAt(0).toUpperCase() + first.slice(1), ...rest].join(", ");
}
