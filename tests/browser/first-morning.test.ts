import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { found } from "@/lib/commands/found";
import type { BoardRow } from "@/lib/schemas/board";
import { openDatabase } from "@/lib/storage/client";
import { answerItem, answerOn, checkOn } from "@/tests/support/answering";
import { type AppServer, startAppServer } from "@/tests/support/app-server";
import { DESK, launchBrowser, PHONE } from "@/tests/support/browser";
import { createTestDatabase, type TestDatabase } from "@/tests/support/database";
import { giveSignature } from "@/tests/support/give-signature";
import { expectAccessible, type Visitor, visitor } from "@/tests/support/page";
import { goodAnswer } from "@/tests/support/small-department";

/** A Tuesday, 05:40 in Chicago. */
const NOW = Date.parse("2026-11-24T11:40:00Z");
const DATE = "2026-11-24";
const EXAMPLE = path.join(process.cwd(), "docs", "examples", "us-quillhaven");
const ADMIN = { userId: "abrook", password: "a long enough password" };
const ROOM = "OR 1";
/** Yoke 1 is the best of them, so the reason and the swap are about yoke 1. */
const LOW = 640;
const LOWER = 470;

let database: TestDatabase;
let server: AppServer;
let browser: Browser;
const visitors: Visitor[] = [];

beforeAll(async () => {
  database = await createTestDatabase();
  const owner = openDatabase(database.ownerUrl);
  await found(
    owner,
    { now: () => NOW },
    {
      organisation: "Quillhaven Health",
      facility: "Quillhaven General",
      timeZone: "America/Chicago",
      scheme: "US",
      pressureUnit: "psi",
      name: "Ada Brook",
      ...ADMIN,
    },
  );
  await owner.close();
  server = await startAppServer({ database, now: NOW });
  browser = await launchBrowser();
});

afterAll(async () => {
  for (const { context } of visitors) await context.close();
  await browser?.close();
  await server?.stop();
  await database?.drop();
});

async function signIn(
  device: typeof PHONE | typeof DESK,
  who: { userId: string; password: string },
  at = "/",
): Promise<Page> {
  const came = await visitor(browser, server, device, who, at);
  visitors.push(came);
  return came.page;
}

/** The people of the example with their first passwords, as its file has them. */
function exampleFor(role: string): { userId: string; password: string; name: string } {
  const [, ...rows] = readFileSync(path.join(EXAMPLE, "people.csv"), "utf8").trim().split(/\r?\n/);
  const people = rows
    .map((row) => row.split(","))
    .map(([userId = "", name = "", roles = "", password = ""]) => ({
      userId,
      name,
      roles: roles.split("|"),
      password,
    }));
  const person = people.find(({ roles }) => roles[0] === role);
  if (!person) throw new Error(`the example has no ${role}`);
  return person;
}

const boardRow = async (page: Page, name: string): Promise<BoardRow> => {
  const board = (await (await page.request.get("/api/v1/board")).json()) as { rooms: BoardRow[] };
  const row = board.rooms.find((room) => room.name === name);
  if (!row) throw new Error(`no room ${name}`);
  return row;
};

/** The room's line on an open board, found as a person finds it. */
const lineOf = (board: Page, name: string) =>
  board.getByRole("listitem").filter({ has: board.getByRole("link", { name, exact: true }) });

describe("a department's first morning, in the browser", () => {
  let board: Page;
  let technician: Page;

  it("imports the example department through the set-up pages", async () => {
    const admin = await signIn(DESK, ADMIN, "/set-up/import");
    await expectAccessible(admin);
    const files = readdirSync(EXAMPLE).filter((file) => file.endsWith(".csv"));
    await admin.getByLabel(/Choose CSV files/).setInputFiles(files.map((file) => path.join(EXAMPLE, file)));
    await admin.getByText("Every row is right").waitFor();
    await admin.getByRole("button", { name: "Import", exact: true }).click();
    await admin.getByText("The department is imported").waitFor();
    await expectAccessible(admin);
  });

  it("shows every room as to check, and none as not to use", async () => {
    board = await signIn(DESK, exampleFor("charge provider"));
    await lineOf(board, ROOM).getByText("To check").first().waitFor();
    expect(await board.getByText("Do not use").count()).toBe(0);
    await expectAccessible(board);
  });

  it("a technician does the room's whole check on a phone; a low gauge turns the open board without a reload", async () => {
    technician = await signIn(PHONE, exampleFor("technician"), "/tasks");
    await technician.getByRole("button", { name: `Start check ${ROOM}`, exact: true }).click();
    await technician.getByRole("dialog").getByRole("button", { name: "AW-01" }).click();
    await technician.waitForURL(/\/checks\//);
    await expectAccessible(technician);
    await board.evaluate(() => Object.assign(window, { notReloaded: true }));
    const { items } = await checkOn(technician);
    const gauge = items.find(
      ({ item, subjectName }) => item === "cylinder-gauge" && subjectName.startsWith("Oxygen, yoke 1"),
    );
    const others = items.filter(
      ({ item, subjectName }) =>
        item === "cylinder-gauge" && subjectName.startsWith("Oxygen") && subjectName !== gauge?.subjectName,
    );
    expect(gauge).toBeDefined();
    for (const item of items) {
      const low = item === gauge || others.includes(item);
      const answer = goodAnswer(item);
      await answerItem(
        technician,
        item,
        low && answer.kind === "gauge"
          ? { ...answer, reading: { ...answer.reading, value: item === gauge ? LOW : LOWER } }
          : answer,
        low,
      );
    }
    await lineOf(board, ROOM).getByText("Do not use").first().waitFor();
    await lineOf(board, ROOM)
      .getByText(/640 psi.*at least 1,000 psi/)
      .waitFor();
    expect(await board.evaluate(() => (window as { notReloaded?: boolean }).notReloaded)).toBe(true);
    await expectAccessible(board);
  });

  it("a killed server loses nothing that was acknowledged, and the pages go on", async () => {
    // The pages of a phone go on while an answer travels.
    const { items } = await checkOn(technician);
    await expect.poll(async () => (await checkOn(technician)).recorded.length, { timeout: 20_000 }).toBe(items.length);
    const before = await checkOn(technician);
    await server.killHard();
    await board
      .getByText(/not live/i)
      .first()
      .waitFor({ timeout: 35_000 });
    await server.restart();
    const after = await checkOn(technician);
    expect(after.recorded).toEqual(before.recorded);
    await lineOf(board, ROOM).getByText("Do not use").first().waitFor({ timeout: 40_000 });
  });

  it("the technician signs; the swap tops the list, is done, and only what it owes is asked", async () => {
    await technician.getByRole("heading", { name: "Review and sign" }).waitFor();
    await expectAccessible(technician);
    await technician.getByRole("button", { name: /^Sign as performed/ }).click();
    // The first signature of the session asks for both components, the next ones for one.
    await technician.getByLabel("Your user id").waitFor();
    await expectAccessible(technician);
    await giveSignature(technician, exampleFor("technician"));
    await technician.getByText("Signed: performed").waitFor();
    await technician.goto("/tasks");
    const first = technician.getByRole("article").first();
    await first.getByRole("heading", { name: new RegExp(`${ROOM}.*swap oxygen`, "i") }).waitFor();
    await expectAccessible(technician);
    await first.getByRole("button", { name: /^Claim/ }).click();
    await technician.getByRole("article").first().getByRole("link", { name: /swap/i }).click();
    await technician.getByText("Empty", { exact: true }).click();
    await technician
      .getByRole("button", { name: /size E, full/ })
      .first()
      .click();
    await expectAccessible(technician);
    await technician.getByRole("button", { name: /^Swap/ }).click();
    await technician.getByText(/is on yoke/).waitFor();
    await lineOf(board, ROOM).getByText("To check").first().waitFor();
    const { tasks } = (await (await technician.request.get("/api/v1/tasks")).json()) as {
      tasks: { key: string; kind: string; room: { name: string } | null }[];
    };
    const recheck = tasks.find(({ kind, room }) => kind === "recheck" && room?.name === ROOM);
    const detail = await (
      await technician.request.get(`/api/v1/tasks/${encodeURIComponent(recheck?.key ?? "")}`)
    ).json();
    expect(detail.items.map(({ item }: { item: string }) => item).sort()).toEqual(["cylinder-gauge", "yoke-leak"]);
    for (const item of detail.items)
      await answerOn(technician.getByRole("region", { name: item.title, exact: true }), item, goodAnswer(item));
    await technician.getByRole("button", { name: /^Sign as performed/ }).click();
    await technician.getByLabel("Your password").waitFor();
    expect(await technician.getByLabel("Your user id").count()).toBe(0);
    await giveSignature(technician, exampleFor("technician"));
    await technician.getByText("Done and signed").waitFor();
    await lineOf(board, ROOM).getByText("Ready", { exact: true }).first().waitFor();
    await lineOf(board, ROOM)
      .getByText(/provider.s check still owed/i)
      .first()
      .waitFor();
    await expectAccessible(board);
  });

  it("the provider confirms in one tap, and the manager's CSV shows all of it", async () => {
    const provider = exampleFor("provider");
    const { roomId } = await boardRow(board, ROOM);
    const phone = await signIn(PHONE, provider, `/rooms/${roomId}`);
    await expectAccessible(phone);
    await phone.getByRole("button", { name: /confirm/i }).click();
    await giveSignature(phone, provider);
    await expect.poll(async () => (await boardRow(board, ROOM)).marks.provider?.name).toBe(provider.name);
    await lineOf(board, ROOM)
      .getByText(/provider.s check still owed/i)
      .first()
      .waitFor({ state: "detached" });

    const manager = await signIn(DESK, exampleFor("manager"), `/reports?from=${DATE}&to=${DATE}`);
    await expectAccessible(manager);
    const [download] = await Promise.all([
      manager.waitForEvent("download"),
      manager.getByRole("link", { name: /CSV/ }).click(),
    ]);
    const csv = readFileSync(await download.path(), "utf8");
    const line = csv.split(/\r?\n/).find((row) => row.includes(`${ROOM},`) || row.includes(`"${ROOM}"`));
    for (const expected of [DATE, "done", exampleFor("technician").name, provider.name, "Cylinder gauge", "on yoke 1"])
      expect(line).toContain(expected);
    await manager.goto(`/history?room=${roomId}`);
    await manager.getByText(/Swapped the cylinder on yoke 1 of OR 1/).waitFor();
    await expectAccessible(manager);
  });
});
