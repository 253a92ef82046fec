import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import type { Board } from "@/lib/schemas/board";
import type { CompletionReport } from "@/lib/schemas/report";
import type { ReadyByReport } from "@/lib/schemas/report-ready-by";
import type { ReasonsReport } from "@/lib/schemas/report-reasons";
import { DEMO_PASSWORD } from "@/seed/demo-people";
import { command } from "@/tests/support/api-work";
import { type AppServer, startAppServer } from "@/tests/support/app-server";
import { DESK, launchBrowser, PHONE } from "@/tests/support/browser";
import { createTestDatabase, type TestDatabase } from "@/tests/support/database";
import { expectAccessible, visitor } from "@/tests/support/page";
import { SEED_NOW } from "@/tests/support/seeded-template";

/** A manager at 06:10 of an invented hospital's third morning: what was done, what was in the way, and what is handed over. */
const DAYS = "from=2026-03-02&to=2026-03-04";
const NARROW = { viewport: { width: 320, height: 640 }, hasTouch: true } as const;

let database: TestDatabase;
let server: AppServer;
let browser: Browser;
let context: BrowserContext;
let page: Page;

beforeAll(async () => {
  database = await createTestDatabase({ seededDays: 2 });
  server = await startAppServer({ database, now: SEED_NOW, demo: true });
  browser = await launchBrowser();
  ({ context, page } = await visitor(browser, server, DESK, { userId: "h.peel", password: DEMO_PASSWORD }));
});

/** What one test did to the window is not the next one's. */
beforeEach(async () => {
  await page.setViewportSize(DESK.viewport);
  await page.emulateMedia({ media: null });
});

afterAll(async () => {
  await context?.close();
  await browser?.close();
  await server?.stop();
  await database?.drop();
});

async function report<Report>(path: string): Promise<Report> {
  const reply = await page.request.get(`/api/v1/reports/${path}`);
  expect(reply.status()).toBe(200);
  return (await reply.json()) as Report;
}

/** Widths of a phone and of paper: nothing lies outside, and nothing has to be pushed sideways to be read. */
async function expectNothingWider(places: string): Promise<void> {
  const wider = await page
    .locator(places)
    .evaluateAll((found) => found.filter((one) => one.scrollWidth > one.clientWidth + 1).map((one) => one.textContent));
  expect(wider).toEqual([]);
}

describe("the checks that were done", () => {
  it("says the figure of the API, draws each day, and says what is counted", async () => {
    const completion = await report<CompletionReport>(`check-completion?${DAYS}`);
    expect(completion.due).toBeGreaterThan(20);
    await page.goto(`/reports?${DAYS}`);
    await page.getByText(`${completion.percent} %`, { exact: true }).waitFor();
    await page.getByText(`${completion.done} of ${completion.due}.`).waitFor();
    const drawn = await page
      .getByRole("region", { name: "Checks done by day" })
      .getByRole("listitem")
      .allTextContents();
    expect(drawn.length).toBe(3);
    const cells = completion.rooms.flatMap(({ cells: all }) => all.filter(({ date }) => date === "2026-03-03"));
    const count = (state: string) => cells.filter((cell) => cell.state === state).length;
    expect(drawn[1]).toContain(
      `${count("done")} of ${count("done") + count("late") + count("missed")} done in time, ${count("late")} late`,
    );
    const meaning = page.getByRole("region", { name: "What is counted" });
    await meaning.getByText("The equipment check of that day was signed before the first case.").waitFor();
    await expectAccessible(page);
  });

  it("opens the record behind one cell by keyboard", async () => {
    const [room] = (await report<CompletionReport>(`check-completion?${DAYS}`)).rooms.filter(
      ({ cells }) => cells[1]?.state === "done",
    );
    await page.goto(`/reports?${DAYS}`);
    const row = page.getByRole("row").filter({ has: page.getByRole("rowheader", { name: room?.name, exact: true }) });
    await row.getByRole("link").nth(1).focus();
    await page.keyboard.press("Enter");
    const record = page.getByRole("region", { name: new RegExp(`^${room?.name}, Tuesday 3 March: done`) });
    await record.getByText(`${room?.cells[1]?.equipmentBy}`).waitFor();
    await expectAccessible(page);
  });

  it("stays inside its sheet on paper, with the definition on it", async () => {
    await page.goto(`/reports?${DAYS}`);
    await page.emulateMedia({ media: "print" });
    expect(await page.getByRole("navigation").filter({ visible: true }).count()).toBe(0);
    expect(await page.getByRole("region", { name: "What is counted" }).isVisible()).toBe(true);
    await expectAccessible(page);
  });
});

describe("ready by the first case", () => {
  it("draws every room of a morning and says the same in words; another morning is one link away", async () => {
    const { mornings } = await report<ReadyByReport>(`ready-by?${DAYS}`);
    await page.goto(`/reports/ready-by?${DAYS}&day=2026-03-03`);
    const of = (date: string) => mornings.find((morning) => morning.date === date);
    const chart = page.getByRole("region", { name: "Tuesday 3 March" });
    expect(await chart.getByRole("listitem").count()).toBe(of("2026-03-03")?.running);
    const words = await chart.getByRole("listitem").allTextContents();
    expect(words.filter((text) => /ready \d\d:\d\d, \d+ min before the first case/.test(text)).length).toBe(
      of("2026-03-03")?.inTime,
    );
    await page.getByRole("link", { name: "Wed 4 Mar" }).click();
    const today = page.getByRole("region", { name: "Wednesday 4 March" });
    await today.waitFor();
    expect((await today.getByText(/not ready yet, first case/).all()).length).toBe(of("2026-03-04")?.notYet);
    await expectAccessible(page);
  });
});

describe("the reasons", () => {
  it.each([
    ["a desk", DESK],
    ["a phone", PHONE],
    ["320 px", NARROW],
  ])("are all there on %s, and nothing is pushed sideways to be read", async (_name, { viewport }) => {
    const { reasons } = await report<ReasonsReport>(`reasons?${DAYS}`);
    await page.setViewportSize(viewport);
    await page.goto(`/reports/reasons?${DAYS}`);
    const list = page.getByRole("region", { name: "Reasons by rule" });
    await list.waitFor();
    const names = await list.getByRole("heading").allTextContents();
    expect(names).toEqual(reasons.map(({ inBrief }) => inBrief));
    const [first] = reasons;
    await list.getByRole("listitem").first().getByText(`${first?.roomDays} of`).waitFor();
    await expectNothingWider("section ol, section ol > li");
    await expectAccessible(page);
  });
});

describe("the shift sheet", () => {
  const REASON = "The bellows stick at the top";

  it("hands over what was held and by whom, what is left open and who to call; on paper too", async () => {
    const { rooms } = (await (await page.request.get("/api/v1/board")).json()) as Board;
    const ready = rooms.find(({ state, occupancy, workstation }) => {
      return state === "ready" && occupancy.state === "idle" && workstation !== null;
    });
    const workstation = ready?.workstation;
    const came = await visitor(browser, server, PHONE, { userId: "n.halabi", password: DEMO_PASSWORD });
    await command(came.page, "hold-workstation", { workstationId: workstation?.id, reason: REASON });
    await came.context.close();
    await page.goto("/reports/shift");
    const part = (name: string) => page.getByRole("region", { name, exact: true });
    await part("Held").getByText(`${ready?.name}: ${REASON}`).waitFor();
    await part("Held")
      .getByText(/Noor Halabi, since \d\d:\d\d/)
      .first()
      .waitFor();
    expect(await part("Not simply ready").getByRole("link", { name: ready?.name, exact: true }).count()).toBe(1);
    expect(await part("Left open").getByRole("listitem").count()).toBeGreaterThan(3);
    await part("On duty now: who to call").waitFor();
    await part("Nothing to hand over").waitFor();
    await expectAccessible(page);
    await page.emulateMedia({ media: "print" });
    expect(await part("Held").isVisible()).toBe(true);
    expect(await page.getByRole("button").filter({ visible: true }).count()).toBe(0);
    expect(await page.getByRole("navigation").filter({ visible: true }).count()).toBe(0);
    await expectAccessible(page);
  });
});
