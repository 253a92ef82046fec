import { minutesText } from "@/app/_parts/format";
import { naturalOrder } from "@/lib/domain/natural-order";
import type { TaskView } from "@/lib/schemas/task";
import { isMine, mayDoIt, type TaskOrder, type Viewer } from "./task-filter";

/** How a task stands to whoever looks at it. */
export type Standing = "yours" | "open" | "taken" | "other";

export interface Group {
  readonly standing: Standing;
  readonly title: string;
  readonly aside: string | null;
  readonly tasks: readonly TaskView[];
}

export function standingOf(task: TaskView, viewer: Viewer): Standing {
  if (isMine(task, viewer)) return "yours";
  if (task.claim) return "taken";
  return mayDoIt(task, viewer) ? "open" : "other";
}

const TITLES: Record<Standing, string> = {
  yours: "You are on it",
  open: "Next, in this order",
  taken: "Others are on it",
  other: "For others to do",
};

/** What this person has begun on top, then what they may do, by the plan or suite by suite; then the others' work. Empty groups are left out. */
export function groupTasks(tasks: readonly TaskView[], viewer: Viewer, order: TaskOrder): Group[] {
  const standing = (wanted: Standing): Group => {
    const found = tasks.filter((task) => standingOf(task, viewer) === wanted);
    return { standing: wanted, title: TITLES[wanted], aside: null, tasks: found };
  };
  const open = standing("open");
  const middle = order === "walk" ? bySuite(open.tasks) : byPlan(open, viewer);
  return [standing("yours"), ...middle, standing("taken"), standing("other")].filter(({ tasks }) => tasks.length > 0);
}

/** Who has a part in the plan sees that part alone on top; the rest is open to them all the same. */
function byPlan(open: Group, { personId }: Viewer): Group[] {
  const own = open.tasks.filter(({ plannedFor }) => plannedFor?.personId === personId);
  if (own.length === 0) return [open];
  const rest = open.tasks.filter((task) => !own.includes(task));
  return [
    { ...open, title: "Next for you, in this order", tasks: own },
    { ...open, title: "Open, and not planned for you", tasks: rest },
  ];
}

const NOWHERE = "Spares, in no room";

/** The same work along the walk: suites and their rooms as they are passed, several tasks of a room in the plan's order. */
function bySuite(tasks: readonly TaskView[]): Group[] {
  const suites = new Map<string, TaskView[]>();
  for (const task of byWalk(tasks)) {
    const suite = task.room?.suite ?? NOWHERE;
    suites.set(suite, [...(suites.get(suite) ?? []), task]);
  }
  return [...suites].map(([suite, inSuite]) => ({
    standing: "open" as const,
    title: suite,
    aside: minutesText(inSuite.reduce((sum, { minutes }) => sum + minutes, 0)),
    tasks: inSuite,
  }));
}

export const byWalk = (tasks: readonly TaskView[]): TaskView[] =>
  [...tasks].sort(
    (left, right) => left.walkingOrder - right.walkingOrder || naturalOrder(placeName(left), placeName(right)),
  );

export const placeName = ({ room, workstation }: Pick<TaskView, "room" | "workstation">): string =>
  room?.name ?? workstation?.tag ?? "";
