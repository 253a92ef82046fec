import { describe, expect, it } from "vitest";
import type { DayList, Evidence } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import { chooseSpares } from "@/lib/domain/spare-choice";
import { decideRequest } from "@/lib/domain/vapor-free/decide";
import { instantAt, instantOf, localDate, localTime, timestampOf } from "@/lib/units/time";
import { procedureFor, readyRoom } from "@/tests/support/ready-room";

const ready = readyRoom("US");
const withList = (list: Partial<DayList>): Evidence => ({
  ...ready,
  room: ready.room && {
    ...ready.room,
    list: { firstCase: null, end: null, needs: [], setUpMinutes: 0, ...ready.room.list, ...list },
  },
});

describe("a list that asks for what is not there", () => {
  it("leaves the room's state and counts it as not ready; no spare is offered as if it fitted", () => {
    const asks = withList({ needs: ["vapor-free"] });
    expect(judge(asks)).toMatchObject({ state: "ready-limited", readyForList: false });
    const spare = { ...ready, room: null };
    const named = { workstationId: "s", tag: "S", model: "M", store: null, distance: 1, evidence: spare };
    const { suitable, unsuitable } = chooseSpares(asks, [named], procedureFor("US"));
    expect(suitable).toEqual([]);
    expect(unsuitable[0]?.why).toBe("Not for this list: it would lack vapor free");
  });
});

describe("a first case at an odd time", () => {
  it("in the past: the room stands as it stands, and the time to decide is simply over", () => {
    const late = withList({ firstCase: timestampOf(instantOf("2026-03-03T11:00:00Z")) });
    const unchecked = { ...late, checks: [], observations: [] };
    expect(judge(late).state).toBe("ready");
    const { state, decideBy } = judge(unchecked);
    expect(state).toBe("to-check");
    expect(instantOf(decideBy ?? "")).toBeLessThan(instantOf(late.now));
  });

  it("on the day clocks go forward, in the hour that does not exist, it is one moment and a valid one", () => {
    const zone = "America/Chicago";
    const day = localDate("2026-03-08");
    const at = instantAt(zone, day, localTime("02:30"));
    expect(at).toBeGreaterThanOrEqual(instantAt(zone, day, localTime("01:59")));
    expect(at).toBeLessThanOrEqual(instantAt(zone, day, localTime("03:30")));
    const evidence = withList({ firstCase: timestampOf(at) });
    expect(judge({ ...evidence, now: "2026-03-08T07:00:00.000Z" }).state).toBe("to-check");
  });

  it("is no time to ask a preparation for when it has passed", () => {
    const now = instantOf("2026-03-08T09:00:00Z");
    expect(decideRequest(instantOf("2026-03-08T08:59:00Z"), now)).toMatchObject({ ok: false, field: "neededAt" });
    expect(decideRequest(now, now).ok).toBe(false);
    expect(decideRequest(instantOf("2026-03-08T09:01:00Z"), now).ok).toBe(true);
  });
});
