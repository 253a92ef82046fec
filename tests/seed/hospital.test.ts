import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { passwordMatches } from "@/lib/auth/password";
import { readBoard } from "@/lib/queries/board";
import { readCompletion } from "@/lib/queries/completion";
import { readHistory } from "@/lib/queries/history";
import { readSpares } from "@/lib/queries/spares";
import { readTasks } from "@/lib/queries/tasks";
import type { Board } from "@/lib/schemas/board";
import { type Database, openDatabase } from "@/lib/storage/client";
import { loadDepartment } from "@/lib/storage/department";
import { signInRecord } from "@/lib/storage/sessions";
import { instant } from "@/lib/units/time";
import { exampleLines, listFile } from "@/seed/day-list";
import { deliver } from "@/seed/delivery";
import { DEMO_PASSWORD, DEMO_PEOPLE } from "@/seed/demo-people";
import { exampleFiles } from "@/seed/department";
import { storiesOf } from "@/seed/hospital";
import { makeMorning, seedHistory } from "@/seed/index";
import type { Story } from "@/seed/working-day";
import { createTestDatabase, type TestDatabase } from "@/tests/support/database";

/** A Wednesday in Chicago; the three days before it are two working days and a Sunday. */
const AT_0530 = Date.parse("2026-03-04T11:30:00Z");
const AT_0610 = Date.parse("2026-03-04T12:10:00Z");
const NEXT_DAY_0520 = Date.parse("2026-03-05T11:20:00Z");

let test: TestDatabase;
let database: Database;
let stories: readonly [Story, Story];
const quiet = () => undefined;

const actorOf = ({ department, manager }: Story): Actor => department.actor(manager);
const boardAt = (story: Story, now: number): Promise<Board> => readBoard(actorOf(story), { database, now: () => now });
const statesOf = (board: Board) => Object.fromEntries(board.rooms.map(({ name, state }) => [name, state]));

beforeAll(async () => {
  test = await createTestDatabase();
  await seedHistory({ databaseUrl: test.appUrl, ownerUrl: test.ownerUrl, now: AT_0530, days: 3, progress: quiet });
  database = openDatabase(test.appUrl);
  stories = await storiesOf(database, instant(AT_0530));
});
afterAll(async () => {
  await database.close();
  await test.drop();
});

describe("the invented hospital at 05:30, before anybody has looked", () => {
  it("shows To check in every room, and not one Do not use", async () => {
    for (const story of stories) {
      const lines = exampleLines(story.folder);
      await story.department.import(story.manager, instant(AT_0530 - 60_000), { list: listFile("today", lines) });
      const { rooms } = await boardAt(story, AT_0530);
      const running = rooms.filter(({ name }) => lines.some(({ room }) => room === name));
      expect(running.length).toBe(lines.length);
      expect(new Set(rooms.map(({ state }) => state))).toEqual(new Set(["to-check"]));
    }
  });

  it("has 24 rooms and 3", async () => {
    const [quillhaven, saltmere] = stories;
    expect((await boardAt(quillhaven, AT_0530)).rooms).toHaveLength(24);
    expect((await boardAt(saltmere, AT_0530)).rooms).toHaveLength(3);
  });
});

describe("its history", () => {
  it("was made by commands of people who may do them, one leaf after the other", async () => {
    for (const { department, manager } of stories) {
      const { entries } = await readHistory(
        department.actor(manager),
        { limit: 200 },
        { database, now: () => AT_0530 },
      );
      expect(entries.length).toBeGreaterThan(20);
      expect(entries.every(({ person }) => person !== null)).toBe(true);
      const sequences = entries.map(({ sequence }) => sequence);
      expect(sequences).toEqual(sequences.map((_, index) => (sequences[0] ?? 0) - index));
    }
  });

  it("shows days that were done, and a Sunday on which most rooms owed nothing", async () => {
    const [quillhaven] = stories;
    const report = await readCompletion(
      actorOf(quillhaven),
      { from: "2026-03-01", to: "2026-03-03" },
      { database, now: () => AT_0530 },
    );
    expect(report.due).toBeGreaterThan(40);
    expect(report.percent).toBeGreaterThan(90);
    const sunday = report.rooms.map(({ cells }) => cells[0]?.state);
    expect(sunday.filter((state) => state === "not-due").length).toBeGreaterThan(18);
  });

  it("lets its people sign in", async () => {
    for (const { userId, name } of DEMO_PEOPLE) {
      const record = await signInRecord(database, userId);
      expect(record?.name).toBe(name);
      expect(await passwordMatches(record?.passwordHash ?? "", DEMO_PASSWORD)).toBe(true);
    }
  });
});

describe("the morning at 06:10", () => {
  beforeAll(async () => {
    await makeMorning({ databaseUrl: test.appUrl, ownerUrl: test.ownerUrl, now: AT_0610, progress: quiet });
  });

  it("is mostly fine, with something of each kind to decide about", async () => {
    const board = await boardAt(stories[0], AT_0610);
    const states = statesOf(board);
    expect(states).toMatchObject({
      "OR 1": "ready",
      "OR 3": "do-not-use",
      "HV 2": "do-not-use",
      "LD 2": "do-not-use",
      "OR 7": "to-check",
      "OR 10": "to-check",
      "CATH 1": "ready-limited",
    });
    const headline = (room: string) => board.rooms.find(({ name }) => name === room)?.headline;
    expect(headline("OR 3")).toMatch(/Reserve oxygen .* psi/);
    expect(headline("HV 2")).toMatch(/Breathing system leaks/);
    expect(headline("LD 2")).toMatch(/^Held/);
    expect(headline("OR 7")).toMatch(/[Rr]echeck/);
    expect(headline("CATH 1")).toMatch(/[Ss]ervice late/);
    expect(board.rooms.filter(({ state }) => state === "ready").length).toBeGreaterThanOrEqual(9);
    expect(board.rooms.filter(({ occupancy }) => occupancy.state === "closed").map(({ name }) => name)).toEqual([
      "OR 12",
      "LD 3",
    ]);
    expect(board.rooms.filter(({ marks }) => marks.provider !== null).length).toBeGreaterThanOrEqual(4);
  });

  it("has checked spares, so that a broken workstation has one to be swapped for", async () => {
    const board = await boardAt(stories[0], AT_0610);
    const leaking = board.rooms.find(({ name }) => name === "HV 2")?.roomId ?? "";
    const spares = await readSpares(actorOf(stories[0]), leaking, { database, now: () => AT_0610 });
    expect(spares?.suitable.map(({ tag }) => tag).sort()).toEqual(["AW-25", "AW-26"]);
  });

  it("has a roster: who is on duty, until when, and somebody for every task", async () => {
    const [quillhaven, saltmere] = stories;
    const reading = { database, now: () => AT_0610 };
    const { duty, tasks } = await readTasks(actorOf(quillhaven), reading);
    expect(duty.onRoster).toBe(true);
    const names = duty.people.map(({ name }) => name);
    expect(names).toEqual(expect.arrayContaining(["Noor Halabi", "Mateo Ferro", "Kit Bellweather", "Devon Achebe"]));
    expect(names).not.toContain("Ilse Kranz");
    expect(tasks.filter(({ onDuty }) => onDuty.length === 0).map(({ title }) => title)).toEqual([]);
    expect((await readTasks(actorOf(saltmere), reading)).duty.people.map(({ name }) => name)).toContain("Callum Brae");
  });

  it("is further in the smaller facility", async () => {
    expect(statesOf(await boardAt(stories[1], AT_0610))).toMatchObject({
      "Theatre 1": "ready",
      "Theatre 3": "to-check",
    });
  });

  it("is followed by another that begins with nothing left over", async () => {
    await makeMorning({ databaseUrl: test.appUrl, ownerUrl: test.ownerUrl, now: NEXT_DAY_0520, progress: quiet });
    const { rooms } = await boardAt(stories[0], NEXT_DAY_0520);
    expect(rooms.filter(({ state }) => state === "do-not-use")).toEqual([]);
    expect(rooms.filter(({ state }) => state === "ready" || state === "ready-limited")).toEqual([]);
  });
});

describe("the supplier", () => {
  const contentsOf = async (serials: readonly string[]) => {
    const { records } = await stories[0].department.read((tx, scope) =>
      loadDepartment(tx, scope, { dates: [], userIds: [] }),
    );
    const asked = records.cylinders.filter(({ serial }) => serials.includes(serial));
    return asked.map(({ contents, storeId }) => `${contents}${storeId === null ? ", fitted" : ", in a store"}`);
  };

  it("fills what stands empty in the store, once it is worth the way", async () => {
    const [header = "", ...rows] = (exampleFiles("us-quillhaven").cylinders ?? "").trim().split("\n");
    const spares = rows.filter((row) => row.startsWith("OX-") && row.endsWith(",full")).slice(-9);
    const serials = spares.map((row) => row.split(",")[0] ?? "");
    const emptied = spares.map((row) => row.replace(/,full$/, ",empty"));
    const at = instant(NEXT_DAY_0520 + 60_000);
    await stories[0].department.import(stories[0].manager, at, { cylinders: [header, ...emptied].join("\n") });
    expect(new Set(await contentsOf(serials))).toEqual(new Set(["empty, in a store"]));
    await deliver(stories[0], at);
    expect(new Set(await contentsOf(serials))).toEqual(new Set(["full, in a store"]));
  });
});
