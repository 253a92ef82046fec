import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { setList } from "@/lib/commands/set-weekly-template";
import { readSpares } from "@/lib/queries/spares";
import { readTasks } from "@/lib/queries/tasks";
import { checkWhole, readingOf, roomNamed } from "@/tests/support/room-work";
import type { SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

/** Tuesday 24 November 2026, 05:30 in Chicago. */
const TUESDAY = "2026-11-24T11:30:00Z";

let department: SmallDepartment;
let manager: Actor;
let technician: Actor;

beforeAll(async () => {
  department = await widerDepartment(TUESDAY);
  manager = await department.person("Ines Falk", ["manager"]);
  technician = await department.person("Rosa Osei", ["technician"]);
});
afterAll(() => department.close());

const listOf = (firstCase: string, needs: readonly string[] = []) => ({
  firstCase,
  ends: "15:30",
  needs: [...needs],
  setUpMinutes: 20,
});
async function give(name: string, list: ReturnType<typeof listOf>): Promise<void> {
  department.clock.add(1);
  const roomId = (await roomNamed(department, name)).roomId;
  await department.must(setList, setList.schema.parse({ roomId, list }) as never, manager);
}

describe("a first case", () => {
  it("in the past is taken as it is: the work for it is late, and says so", async () => {
    await give("OR 1", listOf("04:30"));
    expect((await roomNamed(department, "OR 1")).firstCase).toBe("2026-11-24T10:30:00.000Z");
    const { tasks } = await readTasks(technician, readingOf(department));
    const [first] = tasks.filter(({ room, kind }) => room?.name === "OR 1" && kind === "check");
    expect(first?.placed).toMatch(/^First case \d+ min late if begun now/);
    expect(tasks[0]?.room?.name).toBe("OR 1");
  });

  it("that no clock shows is refused with what would be right", () => {
    const wrong = setList.schema.safeParse({ roomId: crypto.randomUUID(), list: listOf("24:10") });
    expect(wrong.success).toBe(false);
    expect(JSON.stringify(wrong.error?.issues)).toMatch(/firstCase/);
  });

  // RFC 5545, 3.3.5: a time that is skipped is taken with the offset before the gap, one that comes twice is the first of the two.
  it.each([
    [
      "is the same hour by the clock on the day after clocks went forward",
      "2026-03-08T10:30:00Z",
      "07:15",
      "2026-03-08T12:15:00.000Z",
    ],
    ["in the hour that is skipped is the hour after it", "2026-03-08T10:30:00Z", "02:30", "2026-03-08T08:30:00.000Z"],
    [
      "is the same hour by the clock on the day on which clocks went back",
      "2026-11-01T11:30:00Z",
      "07:15",
      "2026-11-01T13:15:00.000Z",
    ],
    [
      "in the hour that comes twice is the first of the two",
      "2026-11-01T11:30:00Z",
      "01:30",
      "2026-11-01T06:30:00.000Z",
    ],
  ])("%s", async (_name, now, firstCase, expected) => {
    department.clock.set(now);
    await give("OR 2", listOf(firstCase));
    expect((await roomNamed(department, "OR 2")).firstCase).toBe(expected);
    department.clock.set(TUESDAY);
  });
});

describe("needs that no workstation has", () => {
  it("leave the room unfit for its list, with the reason, and offer no spare that would not do either", async () => {
    await checkWhole(department, "OR 3", technician);
    expect(await roomNamed(department, "OR 3")).toMatchObject({ readyForList: true });
    await give("OR 3", listOf("07:30", ["vapor-free"]));
    const row = await roomNamed(department, "OR 3");
    expect(row.readyForList).toBe(false);
    expect(row.headline).toMatch(/vapor-free/i);
    const spares = await readSpares(technician, row.roomId, readingOf(department));
    expect(spares?.suitable).toEqual([]);
  });

  it("that nobody knows are refused by name", () => {
    const wrong = setList.schema.safeParse({ roomId: crypto.randomUUID(), list: listOf("07:30", ["xenon"]) });
    expect(wrong.success).toBe(false);
    expect(JSON.stringify(wrong.error?.issues)).toMatch(/needs/);
  });
});
