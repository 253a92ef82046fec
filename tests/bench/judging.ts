import type { Evidence } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import { inFacility } from "@/lib/queries/read";
import { loadEvidence } from "@/lib/storage/evidence";
import { everyHolder } from "@/lib/storage/places";
import { type BenchDepartment, CLOCK } from "./department";
import { type Line, perSecond } from "./report";

const WARM_MS = 1_000;
const MEASURED_MS = 4_000;

/** Rooms judged in a second from evidence in memory: checked ones, unchecked ones, in the order of the walk. */
export async function measureJudging({ database, technician }: BenchDepartment): Promise<Line[]> {
  const rooms = await inFacility(
    technician,
    async (tx, frame, now) => {
      const { rooms: ids, workstations } = await everyHolder(tx, frame.scope.facilityId);
      return (await loadEvidence(tx, frame, ids, workstations, now)).map(({ evidence }) => evidence);
    },
    { database, now: CLOCK.now },
  );
  judgeFor(rooms, WARM_MS);
  const { judged, states, seconds } = judgeFor(rooms, MEASURED_MS);
  const rate = judged / seconds;
  const answers = rooms.reduce((sum, { observations }) => sum + observations.length, 0) / rooms.length;
  return [
    {
      what: `readiness of one room from its evidence, pure (${rooms.length} rooms, ${answers.toFixed(0)} answers each on average; ${states})`,
      value: `${perSecond(rate)}, ${((1e6 * seconds) / judged).toFixed(0)} µs a room`,
      target: { atLeast: 20_000, unit: "rooms/s", reached: rate },
    },
  ];
}

function judgeFor(rooms: readonly Evidence[], atLeastMs: number) {
  const states = new Map<string, number>();
  const started = performance.now();
  let judged = 0;
  while (performance.now() - started < atLeastMs) {
    states.clear();
    for (const evidence of rooms) {
      const { state } = judge(evidence);
      states.set(state, (states.get(state) ?? 0) + 1);
    }
    judged += rooms.length;
  }
  const seconds = (performance.now() - started) / 1000;
  return { judged, seconds, states: [...states].map(([state, count]) => `${count} ${state}`).join(", ") };
}
