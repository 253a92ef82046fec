import type { Severity } from "@/lib/domain/judgement";
import type { PlanPerson, PlanTask, PlanWeights } from "@/lib/domain/plan/model";
import { type Instant, MINUTE } from "@/lib/units/time";

/** A task with its numbers made ready, so that a plan can be tried thousands of times. Minutes from now throughout. */
export interface Job {
  readonly task: PlanTask;
  readonly minutes: number;
  /** Index of the room that waits; -1 when none does. */
  readonly room: number;
  readonly at: number;
  readonly flow: number;
}

export interface Worker {
  readonly person: PlanPerson;
  readonly from: number;
  readonly until: number;
  readonly at: number | null;
}

export interface WaitingRoom {
  readonly id: string;
  readonly readyBy: number;
  readonly weight: number;
}

export interface Board {
  readonly jobs: readonly Job[];
  readonly workers: readonly Worker[];
  readonly rooms: readonly WaitingRoom[];
  readonly weights: PlanWeights;
  readonly now: Instant;
}

/** Which jobs each worker does, in order: indexes into the board's jobs. */
export type Routes = readonly (readonly number[])[];

const MINUTES_AN_HOUR = 60;

/** What a room's first case waits for. */
export const BLOCKS: ReadonlySet<Severity> = new Set<Severity>(["out", "stops", "owed", "limits"]);

export function boardOf(
  tasks: readonly PlanTask[],
  people: readonly PlanPerson[],
  now: Instant,
  weights: PlanWeights,
): Board {
  const rooms: WaitingRoom[] = [];
  const places = new Map<string, number>();
  for (const task of tasks) {
    const { roomId, readyBy, severity } = task;
    if (roomId === null || readyBy === null || !BLOCKS.has(severity)) continue;
    const weight = weights.late[severity] * (1 + (weights.longSetUp * task.setUpMinutes) / MINUTES_AN_HOUR);
    const known = places.get(roomId);
    if (known === undefined) {
      places.set(roomId, rooms.length);
      rooms.push({ id: roomId, readyBy: (readyBy - now) / MINUTE, weight });
    } else {
      const before = rooms[known];
      if (before && before.weight < weight) rooms[known] = { ...before, weight };
    }
  }
  const jobs = tasks.map((task): Job => {
    const waits = task.roomId !== null && task.readyBy !== null && BLOCKS.has(task.severity);
    const room = waits && task.roomId !== null ? (places.get(task.roomId) ?? -1) : -1;
    // What lacks its parts cannot be finished now; it gives way to everything else.
    return {
      task,
      minutes: task.minutes,
      room,
      at: task.walkingOrder,
      flow: task.lacksParts ? weights.flow / 20 : weights.flow,
    };
  });
  const workers = people.map(
    (person): Worker => ({
      person,
      from: Math.max(0, (person.from - now) / MINUTE),
      until: (person.until - now) / MINUTE,
      at: person.walkingOrder,
    }),
  );
  return { jobs, workers, rooms, weights, now };
}

export const walkMinutes = (from: number | null, to: number, { minutesAStep }: PlanWeights): number =>
  from === null ? 0 : Math.abs(to - from) * minutesAStep;

/** A plan that ends after somebody's duty costs this much for each minute: it is only ever chosen when there is no other. */
const OVERTIME = 1_000;

/** The cost of one worker's route, and the end of each room's last job in `ends` (raised, never lowered). */
export function routeCost(board: Board, worker: number, route: readonly number[], ends: Float64Array): number {
  const { jobs, workers, weights } = board;
  const who = workers[worker];
  if (!who) return 0;
  let time = who.from;
  let at = who.at;
  let cost = 0;
  for (const index of route) {
    const job = jobs[index] as Job;
    const walk = walkMinutes(at, job.at, weights);
    time += walk + job.minutes;
    at = job.at;
    cost += walk * weights.walk + time * job.flow;
    if (job.room >= 0 && time > (ends[job.room] as number)) ends[job.room] = time;
  }
  return time > who.until ? cost + (time - who.until) * OVERTIME : cost;
}

/** The whole cost in weighted minutes: each room's first case late once, however many of its jobs are late. */
export function planCost(board: Board, routes: Routes): number {
  const { cost, ends } = othersOf(board, routes, -1);
  return cost + lateCost(board, ends);
}

/** What the other workers' routes cost and when they end each room's work: fixed while one worker's route is tried. */
export interface Others {
  readonly cost: number;
  readonly ends: Float64Array;
}

export function othersOf(board: Board, routes: Routes, ...without: readonly number[]): Others {
  const ends = new Float64Array(board.rooms.length);
  let cost = 0;
  for (let worker = 0; worker < routes.length; worker += 1) {
    if (!without.includes(worker)) cost += routeCost(board, worker, routes[worker] as readonly number[], ends);
  }
  return { cost, ends };
}

function lateCost({ rooms }: Board, ends: Float64Array): number {
  let cost = 0;
  for (let room = 0; room < rooms.length; room += 1) {
    const { readyBy, weight } = rooms[room] as WaitingRoom;
    const late = (ends[room] as number) - readyBy;
    if (late > 0) cost += late * weight;
  }
  return cost;
}

/** The whole cost with these workers' routes tried beside the others'. `scratch` is written over, so that a try makes nothing new. */
export function costBeside(
  board: Board,
  others: Others,
  routes: Routes,
  workers: readonly number[],
  scratch: Float64Array,
): number {
  scratch.set(others.ends);
  let { cost } = others;
  for (const worker of workers) cost += routeCost(board, worker, routes[worker] as readonly number[], scratch);
  return cost + lateCost(board, scratch);
}
