import type { Evidence } from "@/lib/domain/evidence";
import { inFacility } from "@/lib/queries/read";
import { loadEvidence } from "@/lib/storage/evidence";
import { everyHolder } from "@/lib/storage/places";
import { built } from "./built";
import { type BenchDepartment, CLOCK } from "./department";
import { type Line, perSecond } from "./report";

const WARM_MS = 2_000;
const MEASURED_MS = 4_000;

/**
 * Rooms judged in a second of processor time, from evidence in memory, checked and unchecked ones. Nothing is waited for,
 * so on a machine to itself this is a second of the clock; on a shared one the others' share does not count.
 */
export async function measureJudging({ database, technician }: BenchDepartment): Promise<Line[]> {
  const rooms = await inFacility(
    technician,
    async (tx, frame, now) => {
      const { rooms: ids, workstations } = await everyHolder(tx, frame.scope.facilityId);
      return (await loadEvidence(tx, frame, ids, workstations, now)).map(({ evidence }) => evidence);
    },
    { database, now: CLOCK.now },
  );
  const judge = (await built<typeof import("@/lib/domain/judge")>("lib/domain/judge.ts")).judge;
  judgeFor(judge, rooms, WARM_MS);
  const { judged, states, seconds } = judgeFor(judge, rooms, MEASURED_MS);
  const rate = judged / seconds;
  const answers = rooms.reduce((sum, { observations }) => sum + observations.length, 0) / rooms.length;
  return [
    {
      what: `readiness of one room from its evidence, pure (${rooms.length} rooms, ${answers.toFixed(0)} answers each on average; ${states})`,
      value: `${perSecond(rate)} of processor time, ${((1e6 * seconds) / judged).toFixed(0)} µs a room`,
      target: { atLeast: 20_000, unit: "rooms/s", reached: rate },
    },
  ];
}

type Judge = typeof import("@/lib/domain/judge").judge;

function judgeFor(judge: Judge, rooms: readonly Evidence[], atLeastMs: number) {
  const states = new Map<string, number>();
  const started = performance.now();
  const used = process.cpuUsage();
  let judged = 0;
  while (performance.now() - started < atLeastMs) {
    states.clear();
    for (const evidence of rooms) {
      const { state } = judge(evidence);
      states.set(state, (states.get(state) ?? 0) + 1);
    }
    judged += rooms.length;
  }
  const { user, system } = process.cpuUsage(used);
  const seconds = (user + system) / 1e6;
  return { judged, seconds, states: [...states].map(([state, count]) => `${count} ${state}`).join(", ") };
}
