import highs from "highs";
import type { PlanPerson, PlanTask } from "@/lib/domain/plan/model";
import { USUAL_WEIGHTS } from "@/lib/domain/plan/model";
import { type Board, boardOf, type Job, walkMinutes } from "@/lib/domain/plan-cost";
import type { Instant } from "@/lib/units/time";

/**
 * The least cost of a morning, exactly: a mixed-integer program in the language of LP files, solved by HiGHS. It knows nothing of how
 * the product searches. b_i_j: j follows i with the same worker; f_k_j: j is worker k's first; z_k_j: k does j; t_j: when j ends; l_r: how late room r is.
 */
export async function optimumOf(
  tasks: readonly PlanTask[],
  people: readonly PlanPerson[],
  now: Instant,
): Promise<number> {
  const board = boardOf(tasks, people, now, USUAL_WEIGHTS);
  const solver = await highs();
  const solved = solver.solve(programOf(board), { mip_rel_gap: 1e-6, time_limit: 60 });
  if (solved.Status !== "Optimal") throw new Error(`the optimum of a small morning was not found: ${solved.Status}`);
  return solved.ObjectiveValue;
}

function programOf(board: Board): string {
  const { jobs, workers, rooms, weights } = board;
  const far =
    Math.max(...workers.map(({ from }) => from)) +
    jobs.reduce((sum, { minutes }) => sum + minutes, 0) +
    10 * jobs.length;
  const all = jobs.map((_, index) => index);
  const pairs = all.flatMap((i) => all.filter((j) => j !== i).map((j) => [i, j] as const));
  const ways = workers.flatMap((_, k) => all.map((j) => [k, j] as const));
  const able = (k: number, j: number) =>
    jobs[j]?.task.mayDo.some((role) => workers[k]?.person.roles.includes(role)) ?? false;
  const job = (index: number) => jobs[index] as Job;
  const between = (i: number, j: number) => walkMinutes(job(i).at, job(j).at, weights);
  const first = (k: number, j: number) => walkMinutes(workers[k]?.at ?? null, job(j).at, weights);

  const objective = [
    ...rooms.map(({ weight }, r) => `${weight} l_${r}`),
    ...all.map((j) => `${job(j).flow} t_${j}`),
    ...pairs.map(([i, j]) => `${between(i, j) * weights.walk} b_${i}_${j}`),
    ...ways.map(([k, j]) => `${first(k, j) * weights.walk} f_${k}_${j}`),
  ];
  const rows = [
    // Every job is once first, or once after another; nobody has two firsts, nothing two followers.
    ...all.map(
      (j) =>
        `${sum([...pairs.filter(([, to]) => to === j).map(([i]) => `b_${i}_${j}`), ...workers.map((_, k) => `f_${k}_${j}`)])} = 1`,
    ),
    ...all.map((i) => `${sum(pairs.filter(([from]) => from === i).map(([, j]) => `b_${i}_${j}`))} <= 1`),
    ...workers.map((_, k) => `${sum(all.map((j) => `f_${k}_${j}`))} <= 1`),
    ...all.map((j) => `${sum(workers.map((_, k) => `z_${k}_${j}`))} = 1`),
    ...ways.map(([k, j]) => `f_${k}_${j} - z_${k}_${j} <= 0`),
    ...ways.filter(([k, j]) => !able(k, j)).map(([k, j]) => `z_${k}_${j} = 0`),
    ...pairs.flatMap(([i, j]) => workers.map((_, k) => `z_${k}_${i} + b_${i}_${j} - z_${k}_${j} <= 1`)),
    // Time: after the one before, or after coming on duty.
    ...pairs.map(([i, j]) => `t_${j} - t_${i} - ${far} b_${i}_${j} >= ${between(i, j) + job(j).minutes - far}`),
    ...ways.map(
      ([k, j]) => `t_${j} - ${far} f_${k}_${j} >= ${(workers[k]?.from ?? 0) + first(k, j) + job(j).minutes - far}`,
    ),
    ...all
      .filter((j) => job(j).room >= 0)
      .map((j) => `l_${job(j).room} - t_${j} >= ${-(rooms[job(j).room]?.readyBy ?? 0)}`),
  ];
  const binaries = [
    ...pairs.map(([i, j]) => `b_${i}_${j}`),
    ...ways.flatMap(([k, j]) => [`f_${k}_${j}`, `z_${k}_${j}`]),
  ];
  return [
    "Minimize",
    ` cost: ${sum(objective)}`,
    "Subject To",
    ...rows.map((row, place) => ` c${place}: ${row}`),
    "Bounds",
    ...all.map((j) => ` 0 <= t_${j} <= ${far}`),
    ...rooms.map((_, r) => ` 0 <= l_${r} <= ${far}`),
    "Binaries",
    ` ${binaries.join(" ")}`,
    "End",
  ].join("\n");
}

const sum = (terms: readonly string[]): string => terms.join(" + ");
