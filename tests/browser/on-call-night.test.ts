import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { importDepartment } from "@/lib/commands/import-department";
import { answerItem, checkOn } from "@/tests/support/answering";
import { command, rowOf } from "@/tests/support/api-work";
import { type AppServer, startAppServer } from "@/tests/support/app-server";
import { launchBrowser, PHONE } from "@/tests/support/browser";
import { PASSWORD } from "@/tests/support/browser-department";
import { expectAccessible, type Visitor, visitor } from "@/tests/support/page";
import { goodAnswer, type SmallDepartment, smallDepartment } from "@/tests/support/small-department";
import { countTaps } from "@/tests/support/taps";

/**
 * One on-call room over a night in Chicago (six hours behind): the check day turns at 03:00, and what was checked in it counts until
 * 05:00. The server takes its time once, so each hour of the night is a server of its own on the same database.
 */
const ROOM = "OR 1";
const PEOPLE = [
  "user id,name,roles,initial password",
  `rosei,Rosa Osei,technician,${PASSWORD}`,
  `kbrandt,Karl Brandt,provider,${PASSWORD}`,
].join("\n");

let department: SmallDepartment;
let browser: Browser;
let server: AppServer | null = null;
let visitors: Visitor[] = [];

async function leave(): Promise<void> {
  for (const { context } of visitors) await context.close();
  visitors = [];
  await server?.stop();
  server = null;
}

async function at(time: string): Promise<void> {
  await leave();
  server = await startAppServer({ database: department, now: Date.parse(time) });
}

async function come(userId: string, path: string): Promise<Page> {
  if (!server) throw new Error("no server runs at this hour");
  const came = await visitor(browser, server, PHONE, { userId, password: PASSWORD }, path);
  visitors.push(came);
  return came.page;
}

beforeAll(async () => {
  department = await smallDepartment("2026-11-25T05:40:00Z");
  await department.must(importDepartment, { files: { people: PEOPLE } }, department.admin);
  browser = await launchBrowser();
});
afterAll(async () => {
  await leave();
  await browser?.close();
  await department?.close();
});

describe("an on-call night over midnight", () => {
  it("at 23:50 a check is begun, and signed and confirmed in the same round", async () => {
    await at("2026-11-25T05:50:00Z");
    const rosa = await come("rosei", "/tasks");
    const job = await countTaps(rosa);
    await rosa.getByRole("button", { name: `Start check ${ROOM}`, exact: true }).click();
    await rosa.getByRole("dialog").getByRole("button", { name: "AW-01" }).click();
    await rosa.waitForURL(/\/checks\//);
    for (const item of (await checkOn(rosa)).items) await answerItem(rosa, item, goodAnswer(item));
    await rosa.getByRole("button", { name: /^Sign as performed/ }).click();
    await rosa.getByText("Signed: performed").waitFor();
    job.tell("a night's check");
    const { roomId } = await rowOf(rosa, ROOM);
    const karl = await come("kbrandt", `/rooms/${roomId}`);
    await karl.getByRole("button", { name: /confirm/i }).click();
    await expect.poll(async () => (await rowOf(karl, ROOM)).marks.provider?.name).toBe("Karl Brandt");
    expect(await rowOf(karl, ROOM)).toMatchObject({ state: "ready" });
  });

  it("at 02:00 it still counts: the case begins without another check", async () => {
    await at("2026-11-25T08:00:00Z");
    const karl = await come("kbrandt", "/");
    const row = await rowOf(karl, ROOM);
    expect(row).toMatchObject({ state: "ready", occupancy: { state: "idle" } });
    expect(row.marks.equipment?.name).toBe("Rosa Osei");
    await karl.goto(`/rooms/${row.roomId}`);
    const job = await countTaps(karl);
    await karl.getByRole("button", { name: "Case started" }).click();
    await expect.poll(async () => (await rowOf(karl, ROOM)).occupancy.state).toBe("in-use");
    job.tell("a case begun in the night");
    await expectAccessible(karl);
  });

  it("at 03:10 the check day has turned, and nothing turns a room with a case in it", async () => {
    await at("2026-11-25T09:10:00Z");
    const karl = await come("kbrandt", "/");
    expect(await rowOf(karl, ROOM)).toMatchObject({ state: "ready", occupancy: { state: "in-use" } });
    await karl.goto("/tasks?whose=all");
    await karl.getByRole("heading", { level: 1, name: "To do" }).waitFor();
    await expectAccessible(karl);
  });

  it("at 05:00 what was checked in the evening has run out: the room is to check", async () => {
    await at("2026-11-25T10:58:00Z");
    const early = await come("kbrandt", "/");
    const { roomId } = await rowOf(early, ROOM);
    await command(early, "end-case", { roomId });
    expect(await rowOf(early, ROOM)).toMatchObject({ state: "ready", occupancy: { state: "idle" } });
    await at("2026-11-25T11:02:00Z");
    const rosa = await come("rosei", "/tasks");
    await expect.poll(async () => (await rowOf(rosa, ROOM)).state).toBe("to-check");
    await rosa.goto("/");
    await rosa.getByText("To check", { exact: true }).first().waitFor();
    await expectAccessible(rosa);
  });
});
