import type { Plan, PlannedTask, PlanPerson, PlanTask, PlanWeights } from "@/lib/domain/plan/model";
import { USUAL_WEIGHTS } from "@/lib/domain/plan/model";
import { type Board, boardOf, type Job, planCost, type Routes, walkMinutes } from "@/lib/domain/plan-cost";
import { searchRoutes } from "@/lib/domain/plan-search";
import { type PlanWords, planWords } from "@/lib/domain/plan-words";
import { type Instant, later, MINUTE } from "@/lib/units/time";

/**
 * Who does what, in which order, so that as few first cases as possible are late: the sum over rooms of the minutes their first case waits,
 * weighted by severity and long set-up, then time and walking. Work that was begun is not moved. Minutes; valid for one morning of one
 * facility. Not exact: see tests/bench/plan.ts for how near to the optimum it comes.
 */
export function planWork(
  tasks: readonly PlanTask[],
  people: readonly PlanPerson[],
  now: Instant,
  weights: PlanWeights = USUAL_WEIGHTS,
): Plan {
  const known = [...tasks].sort((one, other) => (one.key < other.key ? -1 : 1));
  const workers = [...onDuty(people, known, now)].sort((one, other) => (one.id < other.id ? -1 : 1));
  const board = boardOf(known, workers, now, weights);
  const begun = begunRoutes(board);
  const able = (worker: number, job: number) => mayDo(board, worker, job);
  const free = known.flatMap(({ begun: has }, job) =>
    has === null && workers.some((_, worker) => able(worker, job)) ? [job] : [],
  );
  const routes = withinDuty(board, searchRoutes(board, begun, free, able), begun);
  const planned = routes.flatMap((route, worker) => walked(board, route, worker));
  const keys = new Set(planned.map(({ key }) => key));
  return {
    tasks: said(board, routes, planned),
    unplanned: known
      .filter(({ key }) => !keys.has(key))
      .map((task) => ({ key: task.key, why: nobodyWhy(task, workers) })),
    cost: planCost(board, routes),
  };
}

/** Two entries of one person on a roster are one person: from the first to the last, where they overlap or meet. */
function onDuty(people: readonly PlanPerson[], tasks: readonly PlanTask[], now: Instant): PlanPerson[] {
  const merged = new Map<string, PlanPerson>();
  for (const person of [...people].sort((one, other) => one.from - other.from)) {
    if (person.until <= now && !tasks.some(({ begun }) => begun?.personId === person.id)) continue;
    const before = merged.get(person.id);
    if (before && person.from <= before.until) {
      const roles = [...new Set([...before.roles, ...person.roles])];
      merged.set(person.id, { ...before, roles, until: Math.max(before.until, person.until) as Instant });
    } else if (!before) merged.set(person.id, person);
  }
  return [...merged.values()];
}

function mayDo({ jobs, workers }: Board, worker: number, job: number): boolean {
  const roles = workers[worker]?.person.roles ?? [];
  return jobs[job]?.task.mayDo.some((role) => roles.includes(role)) ?? false;
}

/** What each has begun, in the order in which it was taken. */
const begunRoutes = ({ jobs, workers }: Board): Routes =>
  workers.map(({ person }) =>
    jobs
      .map(({ task }, job) => ({ job, begun: task.begun }))
      .filter(({ begun }) => begun?.personId === person.id)
      .sort((one, other) => (one.begun?.at ?? 0) - (other.begun?.at ?? 0) || one.job - other.job)
      .map(({ job }) => job),
  );

/** What would end after somebody's duty is not promised: it is left over, and somebody has to decide. What is begun stays. */
function withinDuty(board: Board, routes: Routes, begun: Routes): Routes {
  return routes.map((route, worker) => {
    const who = board.workers[worker];
    let time = who?.from ?? 0;
    let at = who?.at ?? null;
    return route.filter((index, place) => {
      const job = board.jobs[index] as Job;
      const end = time + walkMinutes(at, job.at, board.weights) + job.minutes;
      if (end > (who?.until ?? 0) && place >= (begun[worker]?.length ?? 0)) return false;
      time = end;
      at = job.at;
      return true;
    });
  });
}

interface Walked {
  readonly key: string;
  readonly job: Job;
  readonly personId: string;
  readonly start: number;
  readonly end: number;
  readonly walk: number;
}

function walked({ jobs, workers, weights }: Board, route: readonly number[], worker: number): Walked[] {
  const who = workers[worker];
  if (!who) return [];
  let time = who.from;
  let at = who.at;
  return route.map((index) => {
    const job = jobs[index] as Job;
    const walk = walkMinutes(at, job.at, weights);
    const start = time + walk;
    time = start + job.minutes;
    at = job.at;
    return { key: job.task.key, job, personId: who.person.id, start, end: time, walk };
  });
}

function said(board: Board, routes: Routes, planned: readonly Walked[]): PlannedTask[] {
  const ends = new Map<number, number>();
  for (const { job, end } of planned) ends.set(job.room, Math.max(ends.get(job.room) ?? 0, end));
  const instant = (minutes: number) => later(board.now, Math.round(minutes * MINUTE));
  const slacks = slackOf(board, routes, planned);
  return [...planned]
    .sort(
      (one, other) =>
        Number(other.job.task.begun !== null) - Number(one.job.task.begun !== null) || one.start - other.start,
    )
    .map((one) => {
      const room = board.rooms[one.job.room] ?? null;
      const late = room ? Math.max(0, Math.ceil((ends.get(one.job.room) ?? 0) - room.readyBy)) : 0;
      const canWait = slacks.get(one.key) ?? null;
      const words: PlanWords = planWords(one.job.task, { late, canWait, walk: one.walk });
      return {
        key: one.key,
        personId: one.personId,
        start: instant(one.start),
        end: instant(one.end),
        walkMinutes: one.walk,
        lateMinutes: late,
        canWaitMinutes: canWait,
        ...words,
      };
    });
}

/**
 * How long each start may wait before some first case is late: what comes after it on the same route waits with it. Zero when one is late
 * already; null when nothing on the rest of the route is waited for.
 */
function slackOf(board: Board, routes: Routes, planned: readonly Walked[]): ReadonlyMap<string, number | null> {
  const byKey = new Map(planned.map((one) => [one.key, one]));
  const slacks = new Map<string, number | null>();
  for (const route of routes) {
    let slack: number | null = null;
    for (const index of [...route].reverse()) {
      const job = board.jobs[index] as Job;
      const room = board.rooms[job.room];
      const end = byKey.get(job.task.key)?.end ?? 0;
      if (room) {
        const own = Math.max(0, Math.floor(room.readyBy - end));
        slack = slack === null ? own : Math.min(slack, own);
      }
      slacks.set(job.task.key, slack);
    }
  }
  return slacks;
}

function nobodyWhy({ mayDo: roles }: PlanTask, workers: readonly PlanPerson[]): string {
  const able = workers.filter((person) => roles.some((role) => person.roles.includes(role)));
  const who = roles.join(", ").replaceAll("-", " ");
  return able.length === 0
    ? `Nobody on duty may do it (${who}).`
    : "Who may do it goes off duty before it could be done.";
}
