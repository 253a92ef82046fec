import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Board } from "@/lib/schemas/board";
import { DEMO_PASSWORD } from "@/seed/demo-people";
import { type AppServer, startAppServer } from "@/tests/support/app-server";
import { DESK, launchBrowser, PHONE } from "@/tests/support/browser";
import { createTestDatabase, type TestDatabase } from "@/tests/support/database";
import { expectAccessible, expectFits, visitor } from "@/tests/support/page";
import { SEED_NOW } from "@/tests/support/seeded-template";

let database: TestDatabase;
let server: AppServer;
let browser: Browser;

beforeAll(async () => {
  database = await createTestDatabase({ seededDays: 2 });
  server = await startAppServer({ database, now: SEED_NOW, demo: true });
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
  await database?.drop();
});

/** Every token and mark is on one of these: in the dark only the colours are others. */
const DARK: ReadonlySet<string> = new Set(["/", "/tasks", "/reports", "/reports/reasons", "/what-if", "/downtime"]);

const board = async (page: Page): Promise<Board> => (await page.request.get("/api/v1/board")).json();

/** One room of each state that this morning has, the open tasks' first of each kind, and the plain pages. */
async function placesToSee(page: Page): Promise<string[]> {
  const { rooms } = await board(page);
  const states = [...new Map(rooms.map(({ state, roomId }) => [state, roomId])).values()];
  const { tasks } = (await (await page.request.get("/api/v1/tasks")).json()) as {
    tasks: { key: string; kind: string }[];
  };
  const kinds = [
    ...new Map(
      tasks.filter(({ kind }) => kind !== "check" && kind !== "confirm").map(({ kind, key }) => [kind, key]),
    ).values(),
  ];
  return [
    "/",
    "/tasks",
    "/tasks?order=walk",
    "/tasks/duty",
    `/tasks/pick-list?keys=${tasks
      .slice(0, 6)
      .map(({ key }) => encodeURIComponent(key))
      .join(",")}`,
    "/history",
    "/reports",
    "/reports/ready-by",
    "/reports/reasons",
    "/reports/shift",
    "/events",
    "/allowed",
    "/moments",
    "/what-if",
    "/downtime",
    "/downtime/print",
    "/rehearsal",
    "/messages",
    ...states.map((id) => `/rooms/${id}`),
    ...kinds.map((key) => `/tasks/${encodeURIComponent(key)}`),
  ];
}

describe("every screen of a real morning", () => {
  it.each([
    ["is accessible on a phone", PHONE, "light", expectAccessible],
    ["is accessible on a desk, in the dark", DESK, "dark", expectAccessible],
    // Of what axe looks at, only the width is another one here.
    ["fits into 320 px", { viewport: { width: 320, height: 640 } }, "light", expectFits],
  ] as const)("%s, and complains of nothing", async (_name, device, colorScheme, expectGood) => {
    const { context, page } = await visitor(browser, server, device, { userId: "n.halabi", password: DEMO_PASSWORD });
    await page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
    const places = await placesToSee(page);
    expect(places.length).toBeGreaterThan(8);
    for (const place of colorScheme === "dark" ? places.filter((one) => DARK.has(one)) : places) {
      await page.goto(place);
      await page.getByRole("heading", { level: 1 }).first().waitFor();
      await expectGood(page);
    }
    await context.close();
  });

  it("the administrator's pages and the sign-in page are accessible too", async () => {
    const { context, page } = await visitor(browser, server, DESK, { userId: "a.brandt", password: DEMO_PASSWORD });
    for (const place of [
      "/set-up/import",
      "/set-up/people",
      "/set-up/password",
      "/set-up/facility",
      "/set-up/procedures",
    ]) {
      await page.goto(place);
      await page.getByRole("heading", { level: 1 }).first().waitFor();
      await expectAccessible(page);
    }
    await context.close();
    const unknown = await browser.newContext({ ...DESK, baseURL: server.url });
    const stranger = await unknown.newPage();
    await stranger.goto("/sign-in");
    await stranger.getByRole("button", { name: /^sign in/i }).waitFor();
    await expectAccessible(stranger);
    await unknown.close();
  });

  it("a page that does not exist says so in our own words", async () => {
    const { context, page } = await visitor(browser, server, DESK, { userId: "n.halabi", password: DEMO_PASSWORD });
    const response = await page.goto("/rooms/00000000-0000-4000-8000-000000000000");
    expect(response?.status()).toBe(404);
    await page.getByRole("heading", { level: 1 }).waitFor();
    await context.close();
  });
});
