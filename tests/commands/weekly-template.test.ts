import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { importDepartment } from "@/lib/commands/import-department";
import { openRoom } from "@/lib/commands/occupancy";
import { setRoom } from "@/lib/commands/set-room";
import { setList, setWeeklyTemplate } from "@/lib/commands/set-weekly-template";
import { readBoard } from "@/lib/queries/board";
import { readCompletion } from "@/lib/queries/completion";
import { readWeek } from "@/lib/queries/set-up";
import { expectRefused } from "@/tests/support/refusals";
import { readingOf, roomNamed } from "@/tests/support/room-work";
import { type SmallDepartment, smallDepartment } from "@/tests/support/small-department";
import { newRoom } from "./prepared-set-up";

let department: SmallDepartment;
let manager: Actor;

/** Tuesday 24 November 2026, 05:30 in Chicago. */
const TUESDAY = "2026-11-24T11:30:00Z";

beforeAll(async () => {
  department = await smallDepartment(TUESDAY);
  manager = await department.person("Ines Falk", ["manager"]);
});
afterAll(() => department.close());
beforeEach(() => department.clock.add(1));

const room = async (name: string) =>
  (await department.must(setRoom, await newRoom({ department, helper: manager }, name), manager)).roomId;
const day = { closed: false as const, firstCase: "07:15", ends: "15:30", needs: [], setUpMinutes: 20 };
const set = (roomIds: string[], days: object[]) =>
  department.must(setWeeklyTemplate, setWeeklyTemplate.schema.parse({ roomIds, days }) as never, manager);
const row = (name: string) => roomNamed(department, name);

describe("a day without a list", () => {
  it("runs by its weekday, in the facility's own zone, and the board says where the list comes from", async () => {
    const roomId = await room("Side 1");
    expect(await row("Side 1")).toMatchObject({ firstCase: null, listFrom: null, occupancy: { state: "idle" } });
    await set(
      [roomId],
      [
        { weekday: 2, ...day },
        { weekday: 3, ...day, firstCase: "09:00" },
      ],
    );
    expect(await row("Side 1")).toMatchObject({
      firstCase: "2026-11-24T13:15:00.000Z",
      listEnd: "2026-11-24T21:30:00.000Z",
      listFrom: "week",
      needs: [],
    });
    // 02:30 on Wednesday morning still belongs to Tuesday's check day; from 03:00 on it is Wednesday.
    department.clock.set("2026-11-25T08:30:00Z");
    expect((await row("Side 1")).firstCase).toBe("2026-11-24T13:15:00.000Z");
    department.clock.set("2026-11-25T09:01:00Z");
    expect((await row("Side 1")).firstCase).toBe("2026-11-25T15:00:00.000Z");
    department.clock.set("2026-11-26T09:01:00Z");
    expect(await row("Side 1")).toMatchObject({ firstCase: null, listFrom: null });
    department.clock.set(TUESDAY);
  });

  it("of a weekday that is closed is a closed room, which opens again for today alone", async () => {
    const roomId = await room("Side 2");
    await set([roomId], [{ weekday: 2, closed: true }]);
    expect(await row("Side 2")).toMatchObject({ occupancy: { state: "closed" }, listFrom: null });
    await department.must(openRoom, { roomId }, manager);
    expect(await row("Side 2")).toMatchObject({ occupancy: { state: "idle" }, listFrom: "day", firstCase: null });
    department.clock.set("2026-12-01T11:30:00Z");
    expect((await row("Side 2")).occupancy.state).toBe("closed");
    department.clock.set(TUESDAY);
  });

  it("twenty-four rooms in one go", async () => {
    const ids: string[] = [];
    for (let n = 1; n <= 24; n += 1) ids.push(await room(`Hall ${n}`));
    await set(
      ids,
      [1, 2, 3, 4, 5].map((weekday) => ({ weekday, ...day })),
    );
    const { rooms } = await readBoard(manager, readingOf(department));
    const halls = rooms.filter(({ name }) => name.startsWith("Hall"));
    expect(halls).toHaveLength(24);
    expect(new Set(halls.map(({ firstCase }) => firstCase))).toEqual(new Set(["2026-11-24T13:15:00.000Z"]));
    expect(new Set(halls.map(({ listFrom }) => listFrom))).toEqual(new Set(["week"]));
  });
});

describe("a list of the day wins", () => {
  it("entered by hand, until it is taken back", async () => {
    const roomId = await room("Side 3");
    await set([roomId], [{ weekday: 2, ...day }]);
    const list = { firstCase: "10:00", ends: null, needs: ["sedation" as const], setUpMinutes: 5 };
    await department.must(setList, { roomId, list }, manager);
    expect(await row("Side 3")).toMatchObject({
      firstCase: "2026-11-24T16:00:00.000Z",
      listFrom: "day",
      needs: ["sedation"],
    });
    await department.must(setList, { roomId, list: null }, manager);
    expect(await row("Side 3")).toMatchObject({ firstCase: "2026-11-24T13:15:00.000Z", listFrom: "week" });
  });

  it("imported, also in a room that its weekday closes", async () => {
    const roomId = await room("Side 4");
    await set([roomId], [{ weekday: 2, closed: true }]);
    const list = "date,room,first case,ends,needs,set-up minutes\ntoday,Side 4,08:00,,,0";
    await department.must(importDepartment, { files: { list } }, department.admin);
    expect(await row("Side 4")).toMatchObject({
      occupancy: { state: "idle" },
      firstCase: "2026-11-24T14:00:00.000Z",
      listFrom: "day",
    });
  });
});

describe("a template is valid from its day on", () => {
  it("so last week is still counted by last week's", async () => {
    const roomId = await room("Side 5");
    department.clock.set("2026-11-10T11:30:00Z");
    await set([roomId], [{ weekday: 2, ...day }]);
    department.clock.set(TUESDAY);
    await set([roomId], [{ weekday: 2, closed: true }]);
    const report = await readCompletion(manager, { from: "2026-11-09", to: "2026-11-24" }, readingOf(department));
    const cells = report.rooms.find((one) => one.roomId === roomId)?.cells ?? [];
    const due = cells.filter(({ firstCase }) => firstCase !== null).map(({ date }) => date);
    expect(due).toEqual(["2026-11-10", "2026-11-17"]);
    const week = await readWeek(manager, readingOf(department));
    expect(week).toMatchObject({ today: "2026-11-24", weekday: 2 });
    expect(week.rooms.find(({ id }) => id === roomId)?.days).toMatchObject([{ weekday: 2, closed: true }]);
  });
});

describe("what is refused", () => {
  it.each([
    {
      days: [{ weekday: 2, ...day, ends: "07:00" }],
      field: "days.0.ends",
      message: /Tuesday: The list must end after its first case at 07:15/,
    },
    {
      days: [{ weekday: 2, ...day, firstCase: null }],
      field: "days.0.firstCase",
      message: /needs the time of its first case/,
    },
    {
      days: [
        { weekday: 2, ...day },
        { weekday: 2, closed: true },
      ],
      field: "days.1.weekday",
      message: /Tuesday is named twice/,
    },
  ])("$field", async ({ days, field, message }) => {
    const { roomId } = await row("OR 1");
    const input = setWeeklyTemplate.schema.parse({ roomIds: [roomId], days }) as never;
    await expectRefused(department, setWeeklyTemplate, input, manager, { refusal: "invalid", field, message });
  });
});
