import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { claimTask } from "@/lib/commands/claim-task";
import { closeRoom } from "@/lib/commands/occupancy";
import { rejudgeDue } from "@/lib/commands/rejudge";
import { setWeeklyTemplate } from "@/lib/commands/set-weekly-template";
import { readPickList } from "@/lib/queries/pick-list";
import { readTask } from "@/lib/queries/task";
import { readTasks } from "@/lib/queries/tasks";
import { openTasks } from "@/lib/storage/tasks";
import { beginCheck, checkWhole, readingOf, roomNamed, workstationIn } from "@/tests/support/room-work";
import type { SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

/** Chicago in November is six hours behind UTC: the check day turns at 09:00Z, and a check counts until 11:00Z. */
const MORNING = "2026-11-24T12:10:00Z";
const TURN = { before: "2026-11-25T08:59:59.999Z", at: "2026-11-25T09:00:00Z" };
const FIVE = { before: "2026-11-25T10:59:59.999Z", at: "2026-11-25T11:00:00Z" };

let department: SmallDepartment;
let technician: Actor;
let colleague: Actor;
let provider: Actor;

/** Four rooms, each for a part of what follows, in the order of time: OR 1 and OR 2 were checked, OR 3 was closed, and before the night ended a check was begun in OR 1. */
beforeAll(async () => {
  department = await widerDepartment(MORNING);
  technician = await department.person("Rosa Osei", ["technician"]);
  colleague = await department.person("Ines Vidal", ["technician"]);
  provider = await department.person("Karl Brandt", ["provider", "charge-provider"]);
  await checkWhole(department, "OR 1", technician);
  await checkWhole(department, "OR 2", technician);
  const { roomId } = await roomNamed(department, "OR 3");
  await department.must(closeRoom, { roomId }, provider);
  const ofRoom2 = { roomIds: [(await roomNamed(department, "OR 2")).roomId] };
  const wednesday = { firstCase: "06:45", ends: "14:00", needs: ["volatile" as const], setUpMinutes: 20 };
  const manager = await department.person("Mara Lind", ["manager"]);
  await department.must(
    setWeeklyTemplate,
    { ...ofRoom2, days: [{ weekday: 3, closed: false as const, ...wednesday }] },
    manager,
  );
  department.clock.set("2026-11-25T08:30:00Z");
  await beginCheck(department, "OR 1", technician);
});
afterAll(() => department.close());

const tasksIn = async (name: string) => {
  const { tasks } = await readTasks(technician, readingOf(department));
  return tasks.filter(({ room }) => room?.name === name);
};
const kindsIn = async (name: string) => (await tasksIn(name)).map(({ kind }) => kind);
const storedKeys = () =>
  department.database.inScope(scopeOf(technician), async (tx) =>
    (await openTasks(tx, technician.facility.id)).map(({ key }) => key),
  );
const keyOfCheck = async (name: string) => `check:${await workstationIn(department, name)}`;

describe("the work at the very instant, though nothing has stored it yet", () => {
  it("a room closed for the day owes its check again when the check day turns, and not a millisecond before", async () => {
    department.clock.set(TURN.before);
    expect(await kindsIn("OR 3")).toEqual([]);
    department.clock.set(TURN.at);
    expect(await kindsIn("OR 3")).toEqual(["check"]);
    expect(await storedKeys()).not.toContain(await keyOfCheck("OR 3"));
  });

  it("at five the room and its work turn together, in the list, on the board's strip and on the task's own page", async () => {
    const key = await keyOfCheck("OR 1");
    department.clock.set(FIVE.before);
    expect(await kindsIn("OR 1")).not.toContain("check");
    expect(await readTask(technician, key, readingOf(department))).toBeNull();
    department.clock.set(FIVE.at);
    expect(await kindsIn("OR 1")).toEqual(["check"]);
    expect(await storedKeys()).not.toContain(key);
    const row = await roomNamed(department, "OR 1");
    expect({ state: row.state, work: row.work.map(({ taskKey }) => taskKey) }).toEqual({
      state: "to-check",
      work: [key],
    });
    expect(await readTask(technician, key, readingOf(department))).toMatchObject({ task: { kind: "check" } });
    const picked = await readPickList(technician, { keys: [key] }, readingOf(department));
    expect(picked.gone).toEqual([]);
  });

  it("it stands in the plan by the list of the new day, and not by yesterday's", async () => {
    const [task] = await tasksIn("OR 2");
    expect(task).toMatchObject({ kind: "check", firstCase: "2026-11-25T12:45:00.000Z", claim: null });
    expect(task?.placed).toContain("set-up of 20 min");
  });

  it("a check left open yesterday is not offered to go on with", async () => {
    expect((await tasksIn("OR 1"))[0]?.openCheckId).toBeNull();
  });

  it("is the same once it is stored", async () => {
    const essence = async () => {
      const { tasks } = await readTasks(technician, readingOf(department));
      return tasks.map(({ openedAt: _when, ...task }) => task);
    };
    const before = await essence();
    const board = (await roomNamed(department, "OR 2")).work;
    expect(await rejudgeDue(department.database, department.clock, scopeOf(technician))).toBeGreaterThan(0);
    expect(await essence()).toEqual(before);
    expect((await roomNamed(department, "OR 2")).work).toEqual(board);
  });
});

describe("taking work at the very instant", () => {
  it("what the clock has just made can be taken, by one of two, and is still theirs when it is stored", async () => {
    await checkWhole(department, "OR 2", technician);
    department.clock.set("2026-11-26T11:00:00Z");
    const key = await keyOfCheck("OR 2");
    expect(await storedKeys()).not.toContain(key);
    const taken = await Promise.all([
      department.run(claimTask, { key }, technician),
      department.run(claimTask, { key }, colleague),
    ]);
    expect(taken.filter(({ ok }) => ok)).toHaveLength(1);
    await rejudgeDue(department.database, department.clock, scopeOf(technician));
    const [task] = await tasksIn("OR 2");
    expect(["Rosa Osei", "Ines Vidal"]).toContain(task?.claim?.name);
  });

  it("what the clock has just ended is gone for whoever comes to take it", async () => {
    await checkWhole(department, "OR 1", technician);
    department.clock.set("2026-11-26T13:31:00Z");
    await rejudgeDue(department.database, department.clock, scopeOf(technician));
    const countersign = (await tasksIn("OR 1")).find(({ kind }) => kind === "confirm");
    expect(countersign).toBeDefined();
    department.clock.set("2026-11-27T11:00:00Z");
    const key = countersign?.key ?? "";
    expect(await storedKeys()).toContain(key);
    expect(await kindsIn("OR 1")).toEqual(["check"]);
    const outcome = await department.run(claimTask, { key }, provider);
    expect(outcome).toMatchObject({ ok: false, refusal: "not-found" });
  });
});
