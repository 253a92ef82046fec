import type { ContentsRequest } from "@/lib/calculations/cylinder-contents";
import { celsius, kelvin, litre, pascalAbsolute } from "@/lib/units/measure";
import { built } from "./built";
import { type Line, perSecond } from "./report";

const WARM_MS = 500;
const MEASURED_MS = 2_000;
/** So many different pressures, none of them met twice in a row; a solver that remembered answers would gain nothing. */
const STATES = 200_000;
/** As in a department: the operating rooms, the corridor, the store. */
const ROOM_TEMPERATURES = [283.15, 288.15, 293.15, 294.2611, 298.15];

type Density = typeof import("@/lib/calculations/equation-of-state/density");
type Contents = typeof import("@/lib/calculations/cylinder-contents");
type Oxygen = typeof import("@/lib/calculations/equation-of-state/oxygen");

/** Density solves of oxygen and whole contents calculations in a second of processor time, on one processor. */
export async function measureGas(): Promise<Line[]> {
  const { stateAt } = await built<Density>("lib/calculations/equation-of-state/density.ts");
  const { OXYGEN } = await built<Oxygen>("lib/calculations/equation-of-state/oxygen.ts");
  const { cylinderContents } = await built<Contents>("lib/calculations/cylinder-contents.ts");
  const pressures = Array.from({ length: STATES }, (_, n) => pascalAbsolute(101_325 + spread(n) * 3e7));
  const few = Array.from({ length: STATES }, (_, n) =>
    kelvin(ROOM_TEMPERATURES[n % ROOM_TEMPERATURES.length] ?? 293.15),
  );
  const many = Array.from({ length: STATES }, (_, n) => kelvin(253.15 + spread(n * 7 + 3) * 80));
  const requests = Array.from({ length: STATES }, (_, n) => requestOf(n));
  const solve = (temperatures: typeof few) => (n: number) => {
    const state = stateAt(OXYGEN, pressures[n] as (typeof pressures)[number], temperatures[n] as (typeof few)[number]);
    return state.phase === "two-phase" ? 0 : state.density;
  };
  const ordinary = rateOf(solve(few));
  const everyAnew = rateOf(solve(many));
  const contents = rateOf((n) => {
    const answer = cylinderContents(requests[n] as ContentsRequest);
    return answer.ok ? answer.value : 0;
  });
  return [
    {
      what: `density of oxygen from its pressure, ${STATES.toLocaleString("en-US")} pressures at ${ROOM_TEMPERATURES.length} temperatures`,
      value: `${perSecond(ordinary)} of processor time`,
      target: { atLeast: 500_000, unit: "solves/s", reached: ordinary },
    },
    { what: "the same, each at a temperature of its own", value: `${perSecond(everyAnew)} of processor time` },
    {
      what: "usable contents of a cylinder with uncertainty, oxygen, air and nitrous oxide in turn",
      value: `${perSecond(contents)} of processor time`,
    },
  ];
}

/** Evenly over 0 to 1 and without order: the fractional part of multiples of the golden ratio. */
const spread = (n: number): number => (n * 0.618_033_988_749_894_9) % 1;

function requestOf(n: number): ContentsRequest {
  const gas = (["oxygen", "air", "nitrous-oxide"] as const)[n % 3] ?? "oxygen";
  return {
    gas,
    pressure: { value: spread(n) * (gas === "nitrous-oxide" ? 700 : 2_200), unit: "psi" },
    temperature: celsius(18 + (n % 5)),
    waterCapacity: litre(4.8),
    reference: "70F-1atm",
    method: { kind: "equation-of-state" },
  };
}

/** How often it ran in a second of processor time; the sum is kept so that no work can be left out. */
function rateOf(work: (n: number) => number): number {
  const run = (atLeastMs: number) => {
    const started = performance.now();
    const used = process.cpuUsage();
    let done = 0;
    let sum = 0;
    while (performance.now() - started < atLeastMs) {
      for (let n = 0; n < 1_000; n += 1) sum += work((done + n) % STATES);
      done += 1_000;
    }
    if (!Number.isFinite(sum) || sum <= 0) throw new Error(`the sum of all answers is ${sum}`);
    const { user, system } = process.cpuUsage(used);
    return done / ((user + system) / 1e6);
  };
  run(WARM_MS);
  return run(MEASURED_MS);
}
