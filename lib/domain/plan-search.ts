import { type Board, costBeside, type Job, othersOf, planCost, type Routes } from "@/lib/domain/plan-cost";

/** Routes under change. `fixed` is how many at the front of each were begun and stay where they are. */
interface Searched {
  readonly board: Board;
  readonly fixed: readonly number[];
  readonly scratch: Float64Array;
  readonly effort: Effort;
  routes: number[][];
  cost: number;
}

/** Less than this is no gain but rounding. */
const GAIN = 1e-9;
/** So many rounds of moves at the most; a few are enough to come to rest. */
const ROUNDS = 30;

/** With more jobs than this the moves find their way from fewer starts, and every start costs more. */
const MANY = 30;
const STARTS_OF_MANY = 3;

/** What may still be tried, in steps of adding up: a count and not a clock, so that the same morning always gets the same plan. */
interface Effort {
  left: number;
}
/** Some 50 ms of a processor; 60 tasks for 8 people come to rest well before, 300 tasks for 20 people are only inserted and moved a little. */
const EFFORT = 12_000_000;

/** May this worker do this job? Decided once, for all tries. */
export type Able = (worker: number, job: number) => boolean;

/**
 * Good routes for the jobs that are not begun: inserted one by one where they cost least, from several orders, then moved and exchanged
 * until nothing gains. Deterministic: the same board gives the same routes. A heuristic; tests/bench/plan.ts holds it against the exact optimum.
 */
export function searchRoutes(board: Board, begun: Routes, free: readonly number[], able: Able): Routes {
  let best: Searched | null = null;
  const effort: Effort = { left: EFFORT };
  for (const order of startOrders(board, free).slice(0, free.length > MANY ? STARTS_OF_MANY : undefined)) {
    if (best !== null && effort.left <= 0) break;
    const searched = inserted(board, begun, order, able, effort);
    improve(searched, able);
    if (best === null || searched.cost < best.cost - GAIN) best = searched;
  }
  return best?.routes ?? begun;
}

/** By due time, by weight over length, along the walk, longest first: each is best on some mornings. */
function startOrders({ jobs, rooms }: Board, free: readonly number[]): number[][] {
  const job = (index: number) => jobs[index] as Job;
  const readyBy = (index: number) => rooms[job(index).room]?.readyBy ?? Number.MAX_SAFE_INTEGER;
  const latestStart = (index: number) => readyBy(index) - job(index).minutes;
  const weight = (index: number) => rooms[job(index).room]?.weight ?? 0;
  const sorted = (by: (index: number) => number) => [...free].sort((one, other) => by(one) - by(other) || one - other);
  return [
    sorted(latestStart),
    sorted((index) => readyBy(index) - 10 * weight(index)),
    sorted((index) => -weight(index) / job(index).minutes),
    sorted((index) => job(index).at),
    sorted((index) => -job(index).minutes),
  ];
}

function inserted(board: Board, begun: Routes, order: readonly number[], able: Able, effort: Effort): Searched {
  const searched: Searched = {
    board,
    fixed: begun.map((route) => route.length),
    routes: begun.map((route) => [...route]),
    scratch: new Float64Array(board.rooms.length),
    effort,
    cost: planCost(board, begun),
  };
  for (const job of order) place(searched, job, able);
  return searched;
}

/** Puts a job where it costs least; every worker who may do it, every place after what is begun. */
function place(searched: Searched, job: number, able: Able): void {
  const { board, routes, fixed, scratch } = searched;
  let best = { worker: -1, at: 0, cost: Number.POSITIVE_INFINITY };
  for (let worker = 0; worker < routes.length; worker += 1) {
    if (!able(worker, job)) continue;
    const route = routes[worker] as number[];
    const others = othersOf(board, routes, worker);
    const tried = [worker];
    searched.effort.left -= (route.length + 1) * (route.length + board.rooms.length);
    for (let at = fixed[worker] as number; at <= route.length; at += 1) {
      route.splice(at, 0, job);
      const cost = costBeside(board, others, routes, tried, scratch);
      route.splice(at, 1);
      if (cost < best.cost - GAIN) best = { worker, at, cost };
    }
  }
  if (best.worker < 0) return;
  (routes[best.worker] as number[]).splice(best.at, 0, job);
  searched.cost = best.cost;
}

/** Moves and exchanges until a whole round gains nothing. */
function improve(searched: Searched, able: Able): void {
  for (let round = 0; round < ROUNDS; round += 1) {
    const before = searched.cost;
    moveEach(searched, able);
    exchangeEach(searched, able);
    if (searched.cost >= before - GAIN || searched.effort.left <= 0) return;
  }
}

/** Takes each job out and puts it back where it costs least. */
function moveEach(searched: Searched, able: Able): void {
  const { routes, fixed } = searched;
  for (let worker = 0; worker < routes.length; worker += 1) {
    const route = routes[worker] as number[];
    for (const job of route.slice(fixed[worker])) {
      if (searched.effort.left <= 0) return;
      const at = route.indexOf(job);
      const before = searched.cost;
      route.splice(at, 1);
      place(searched, job, able);
      if (searched.cost <= before + GAIN) continue;
      // Nothing was better than where it stood (rounding may say otherwise by a hair): back to it.
      for (const each of routes) if (each.includes(job)) each.splice(each.indexOf(job), 1);
      route.splice(at, 0, job);
      searched.cost = before;
    }
  }
}

/** Every two jobs that may change places, of one worker or of two. */
function exchangeEach(searched: Searched, able: Able): void {
  const { routes } = searched;
  for (let one = 0; one < routes.length; one += 1)
    for (let other = one; other < routes.length && searched.effort.left > 0; other += 1)
      exchangeBetween(searched, one, other, able);
}

function exchangeBetween(searched: Searched, one: number, other: number, able: Able): void {
  const { board, routes, fixed, scratch } = searched;
  const [left, right] = [routes[one] as number[], routes[other] as number[]];
  const tried = one === other ? [one] : [one, other];
  const others = othersOf(board, routes, ...tried);
  searched.effort.left -= left.length * right.length * (left.length + right.length + board.rooms.length);
  for (let here = fixed[one] as number; here < left.length; here += 1) {
    for (let there = one === other ? here + 1 : (fixed[other] as number); there < right.length; there += 1) {
      const [leftJob, rightJob] = [left[here] as number, right[there] as number];
      if (one !== other && (!able(one, rightJob) || !able(other, leftJob))) continue;
      left[here] = rightJob;
      right[there] = leftJob;
      const cost = costBeside(board, others, routes, tried, scratch);
      if (cost < searched.cost - GAIN) {
        searched.cost = cost;
      } else {
        left[here] = leftJob;
        right[there] = rightJob;
      }
    }
  }
}
