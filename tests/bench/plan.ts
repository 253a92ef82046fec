import { planWork } from "@/lib/domain/plan/decide";
import { randomMorning } from "@/tests/support/small-mornings";
import { built } from "./built";
import { optimumOf } from "./plan-optimum";
import type { Line } from "./report";

const MORNINGS = 100;
const SMALL = { tasks: 6, people: 2, rooms: 5 };
const LARGE = { tasks: 60, people: 8, rooms: 40 };
const REPEATS = 9;

/** How near the order of the work comes to the exact optimum on small random mornings, and how long it takes on a large one. */
export async function measurePlan(): Promise<Line[]> {
  const gaps: { seed: number; gap: number }[] = [];
  for (let seed = 1; seed <= MORNINGS; seed += 1) {
    const { tasks, people, now } = randomMorning(seed, SMALL);
    const least = await optimumOf(tasks, people, now);
    gaps.push({ seed, gap: planWork(tasks, people, now).cost / least - 1 });
  }
  const mean = gaps.reduce((sum, { gap }) => sum + gap, 0) / gaps.length;
  const worst = gaps.reduce((one, other) => (other.gap > one.gap ? other : one));
  const exact = gaps.filter(({ gap }) => gap < 1e-6).length;
  const took = timeOf((await built<typeof import("@/lib/domain/plan/decide")>("lib/domain/plan/decide.ts")).planWork);
  return [
    {
      what: `order of the work above the exact optimum, mean of ${MORNINGS} random mornings (${SMALL.tasks} tasks, ${SMALL.people} people; ${exact} exact; worst: morning ${worst.seed} with ${percent(worst.gap)})`,
      value: percent(mean),
      target: { atMost: 0.05, unit: "of the optimum", reached: mean },
    },
    {
      what: `order of ${LARGE.tasks} tasks for ${LARGE.people} people, median of ${REPEATS}`,
      value: `${took.toFixed(1)} ms of processor time`,
      target: { atMost: 50, unit: "ms", reached: took },
    },
  ];
}

function timeOf(plan: typeof planWork): number {
  const mornings = Array.from({ length: REPEATS }, (_, place) => randomMorning(1_000 + place, LARGE));
  for (const { tasks, people, now } of mornings) plan(tasks, people, now);
  const times = mornings.map(({ tasks, people, now }) => {
    const before = process.cpuUsage();
    plan(tasks, people, now);
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1_000;
  });
  return times.sort((one, other) => one - other)[Math.floor(REPEATS / 2)] ?? Number.NaN;
}

const percent = (share: number): string => `${(share * 100).toFixed(2)} %`;
