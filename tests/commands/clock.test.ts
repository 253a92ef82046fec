import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import { closeRoom, endCase, openRoom, startCase } from "@/lib/commands/occupancy";
import { rejudgeDue } from "@/lib/commands/rejudge";
import { readRoom } from "@/lib/queries/room";
import { readTasks } from "@/lib/queries/tasks";
import { contentsOf } from "@/tests/support/postgres";
import { checkWhole, readingOf, roomNamed } from "@/tests/support/room-work";
import type { SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

/** Chicago is six hours behind UTC in November: the check day turns at 09:00Z, and a check counts until 11:00Z. */
const MORNING = "2026-11-24T12:10:00Z";
const NEXT_DAY = { beforeFive: "2026-11-25T10:59:59Z", five: "2026-11-25T11:00:00Z", later: "2026-11-25T11:01:00Z" };
const opened: SmallDepartment[] = [];
let department: SmallDepartment;
let technician: Actor;
let provider: Actor;

beforeEach(async () => {
  department = await widerDepartment(MORNING);
  opened.push(department);
  technician = await department.person("Rosa Osei", ["technician"]);
  provider = await department.person("Karl Brandt", ["provider", "charge-provider"]);
});
afterAll(async () => {
  for (const one of opened) await one.close();
});

const state = async (name: string) => (await roomNamed(department, name)).state;
const stored = async (name: string) => {
  const { roomId } = await roomNamed(department, name);
  const row = await department.database.inScope(scopeOf(technician), (tx) =>
    tx.readiness.findFirst({ where: { holderId: roomId } }),
  );
  return { state: row?.state, goodUntil: row?.goodUntil?.toISOString() };
};
const tasksOf = async (name: string) => {
  const { tasks } = await readTasks(technician, readingOf(department));
  return tasks.filter(({ room }) => room?.name === name).map(({ kind }) => kind);
};
const rejudge = () => rejudgeDue(department.database, department.clock, scopeOf(technician));

describe("what the clock alone changes", () => {
  it("a check counts until five the next morning: every reader says so to the second, though no job has run", async () => {
    await checkWhole(department, "OR 1", technician);
    expect(await state("OR 1")).toBe("ready");
    department.clock.set(NEXT_DAY.beforeFive);
    expect(await state("OR 1")).toBe("ready");
    department.clock.set(NEXT_DAY.five);
    expect(await state("OR 1")).toBe("to-check");
    department.clock.set(NEXT_DAY.later);
    const row = await roomNamed(department, "OR 1");
    expect(row).toMatchObject({ state: "to-check", headline: "Not checked yet today", marks: { equipment: null } });
    const room = await readRoom(technician, row.roomId, readingOf(department));
    expect(room).toMatchObject({ row: { state: "to-check" }, judgement: { state: "to-check" } });
    // The stored row still says what it said: it is the readers who know that it is out of date.
    expect((await stored("OR 1")).state).toBe("ready");
  });

  it("the stored answer catches up when it is due, once, and leaves no entry in the history", async () => {
    await checkWhole(department, "OR 1", technician);
    // The first case is at 07:30: from then on the provider's mark is missing.
    expect(await stored("OR 1")).toEqual({ state: "ready", goodUntil: "2026-11-24T13:30:00.000Z" });
    expect(await rejudge()).toBe(0);
    department.clock.set(NEXT_DAY.beforeFive);
    expect(await rejudge()).toBeGreaterThan(0);
    expect(await stored("OR 1")).toEqual({ state: "ready", goodUntil: new Date(NEXT_DAY.five).toISOString() });
    expect(await tasksOf("OR 1")).not.toContain("check");
    department.clock.set(NEXT_DAY.five);
    const before = await contentsOf(department.appUrl, scopeOf(technician));
    expect(await rejudge()).toBeGreaterThan(0);
    expect(await rejudge()).toBe(0);
    const after = await contentsOf(department.appUrl, scopeOf(technician));
    expect((await stored("OR 1")).state).toBe("to-check");
    expect(await tasksOf("OR 1")).toEqual(["check"]);
    const changed = Object.keys(after).filter((table) => after[table] !== before[table]);
    expect(changed.sort()).toEqual(["derived.readiness", "derived.readiness_change", "derived.task"]);
    const causes = await department.database.inScope(scopeOf(technician), (tx) =>
      tx.readinessChange.findMany({ where: { cause: "clock", state: "to-check" } }),
    );
    expect(causes.length).toBeGreaterThan(0);
  });

  it("a judgement by an earlier version of the rules' code is judged again by every reader, and stored again when it is met", async () => {
    await checkWhole(department, "OR 1", technician);
    const { roomId } = await roomNamed(department, "OR 1");
    await department.database.inScope(scopeOf(technician), (tx) =>
      tx.readiness.updateMany({ where: { holderId: roomId }, data: { engineVersion: 0, state: "do-not-use" } }),
    );
    expect(await state("OR 1")).toBe("ready");
    expect(await rejudge()).toBe(1);
    expect((await stored("OR 1")).state).toBe("ready");
    expect(await rejudge()).toBe(0);
  });

  it("two instances that wake at once judge it once", async () => {
    await checkWhole(department, "OR 1", technician);
    department.clock.set(NEXT_DAY.later);
    await Promise.all([rejudge(), rejudge(), rejudge()]);
    const { roomId } = await roomNamed(department, "OR 1");
    const changes = await department.database.inScope(scopeOf(technician), (tx) =>
      tx.readinessChange.findMany({ where: { holderId: roomId, cause: "clock" } }),
    );
    expect(changes.map((change) => change.state)).toEqual(["to-check"]);
  });

  it("a running case keeps the check it began with; after it the room is to check", async () => {
    await checkWhole(department, "OR 1", technician);
    department.clock.set("2026-11-25T10:50:00Z");
    const { roomId } = await roomNamed(department, "OR 1");
    await department.must(startCase, { roomId }, provider);
    department.clock.set("2026-11-25T15:00:00Z");
    expect(await state("OR 1")).toBe("ready");
    await rejudge();
    expect(await stored("OR 1")).toMatchObject({ state: "ready" });
    await department.must(endCase, { roomId }, provider);
    expect(await state("OR 1")).toBe("to-check");
  });

  it("a check between midnight and three belongs to the night before; one after three to the new day", async () => {
    department.clock.set("2026-11-25T08:59:00Z");
    await checkWhole(department, "OR 1", technician);
    department.clock.set("2026-11-25T09:01:00Z");
    await checkWhole(department, "OR 2", technician);
    department.clock.set(NEXT_DAY.later);
    expect([await state("OR 1"), await state("OR 2")]).toEqual(["to-check", "ready"]);
  });

  it("closed for today ends with the day", async () => {
    const { roomId } = await roomNamed(department, "OR 1");
    await department.must(closeRoom, { roomId }, provider);
    department.clock.set("2026-11-25T08:59:00Z");
    expect((await roomNamed(department, "OR 1")).occupancy.state).toBe("closed");
    expect(await tasksOf("OR 1")).toEqual([]);
    department.clock.set("2026-11-25T09:00:00Z");
    expect((await roomNamed(department, "OR 1")).occupancy.state).toBe("idle");
    await rejudge();
    expect(await tasksOf("OR 1")).toEqual(["check"]);
    await department.must(closeRoom, { roomId }, provider);
  });

  it("a clock that goes back breaks nothing: what was written stays before what is written", async () => {
    const { roomId, workstation } = await roomNamed(department, "OR 1");
    const hold = { workstationId: workstation?.id ?? "", reason: "A hiss at the yoke." };
    department.clock.add(60);
    const { holdId } = await department.must(holdWorkstation, hold, technician);
    await department.must(closeRoom, { roomId }, provider);
    department.clock.add(-30);
    await department.must(openRoom, { roomId }, provider);
    await department.must(liftHold, { ...hold, holdId }, technician);
    expect(await roomNamed(department, "OR 1")).toMatchObject({ state: "to-check", occupancy: { state: "idle" } });
    const leaves = await department.database.inScope(scopeOf(technician), (tx) =>
      tx.leaf.findMany({ orderBy: { sequence: "asc" } }),
    );
    const times = leaves.map(({ at }) => at.getTime());
    expect(times).toEqual([...new Set(times)].sort((left, right) => left - right));
  });
});
