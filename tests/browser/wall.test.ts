import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { liftHold } from "@/lib/commands/hold";
import { registerDevice, revokeDevice } from "@/lib/commands/register-device";
import { WALL } from "@/tests/support/browser";
import { type BrowserDepartment, browserDepartment } from "@/tests/support/browser-department";
import { addRooms, HELD_ROOM, oneOfEach } from "@/tests/support/many-rooms";
import { expectAccessible } from "@/tests/support/page";
import { workstationIn } from "@/tests/support/room-work";

/** Whoever has left a name on a mark, a claim, a hold or a session of this department. */
const NAMES = /Rosa|Osei|Karl|Brandt|Ines|Marlow|Ada|Brook|hiss/;

const mornings = new Map<number, Promise<BrowserDepartment>>();
afterAll(async () => {
  for (const morning of mornings.values()) await (await morning).close();
});

/** The department of that many rooms, made when it is first asked for. */
function morningOf(count: number): Promise<BrowserDepartment> {
  const made = mornings.get(count) ?? department(count);
  mornings.set(count, made);
  return made;
}

async function department(count: number): Promise<BrowserDepartment> {
  return browserDepartment(undefined, async (small) => {
    await addRooms(small, count);
    const technician = await small.person("Rosa Osei", ["technician"]);
    await oneOfEach(small, technician, await small.person("Karl Brandt", ["provider"]));
  });
}

interface Measured {
  readonly smallest: Record<"name" | "word" | "note" | "sentence", number>;
  /** What does not fit its cell, and what lies outside of the screen. */
  readonly cut: string[];
  readonly scrolls: boolean;
}

const measure = (page: Page): Promise<Measured> =>
  page.evaluate(() => {
    const sizes = (what: string) =>
      [...document.querySelectorAll(`[data-wall=${what}]`)].map((one) =>
        Number.parseFloat(getComputedStyle(one).fontSize),
      );
    const cells = [...document.querySelectorAll("main li")];
    const inside = cells.flatMap((cell) => [...cell.querySelectorAll("h3, p, svg")].map((part) => ({ cell, part })));
    const within = (part: DOMRect, whole: DOMRect) =>
      part.left >= whole.left - 1 &&
      part.right <= whole.right + 1 &&
      part.top >= whole.top - 1 &&
      part.bottom <= whole.bottom + 1;
    const screen = new DOMRect(0, 0, window.innerWidth, window.innerHeight);
    const cut = [
      ...inside.filter(({ cell, part }) => !within(part.getBoundingClientRect(), cell.getBoundingClientRect())),
      ...inside.filter(({ part }) => part.tagName !== "svg" && part.scrollWidth > part.clientWidth + 1),
    ].map(({ cell, part }) => `${cell.textContent}: ${part.tagName} ${part.textContent}`);
    const outside = [...cells, ...document.querySelectorAll("main header, main h2")].filter(
      (one) => !within(one.getBoundingClientRect(), screen),
    );
    const root = document.documentElement;
    return {
      smallest: {
        name: Math.min(...sizes("name")),
        word: Math.min(...sizes("word")),
        note: Math.min(...sizes("note")),
        sentence: Math.min(...sizes("sentence")),
      },
      cut: [...cut, ...outside.map((one) => `outside: ${one.textContent}`)],
      scrolls: root.scrollHeight > root.clientHeight || root.scrollWidth > root.clientWidth,
    };
  });

/** The wall, and everything that came over its wire: the page itself, and the whole of its stream for some seconds. */
async function openWall(morning: BrowserDepartment, address = "/wall") {
  const { context, page } = await morning.come("imarlow", WALL, "/tasks");
  const sent: Promise<string>[] = [];
  page.on("response", (response) => {
    if (/\/wall/.test(new URL(response.url()).pathname) && !response.url().includes("/events"))
      sent.push(response.text());
  });
  await page.goto(address);
  await page.locator("[data-wall=grid]").waitFor();
  return { context, page, sent: () => Promise.all(sent) };
}

/** What a stream of the wall says until it has said all of that. */
const streamUntil = (page: Page, ...wanted: string[]): Promise<string> =>
  page.evaluate(async (words) => {
    const stop = new AbortController();
    const reply = await fetch("/api/v1/wall/events", { signal: stop.signal });
    const reader = reply.body?.pipeThrough(new TextDecoderStream()).getReader();
    let text = "";
    while (words.some((word) => !text.includes(word))) {
      const part = await reader?.read();
      if (!part || part.done) break;
      text += part.value;
    }
    stop.abort();
    return text;
  }, wanted);

/** Only a screen that has heard the server can miss it: the page's own stream was asked for before this one. */
const isHeard = (page: Page) => streamUntil(page, "event: hello");

describe.each([
  { count: 24, note: 25, name: 44, word: 30 },
  { count: 48, note: 22, name: 37, word: 28 },
])("a wall of $count rooms at 1920 by 1080", ({ count, ...least }) => {
  let morning: BrowserDepartment;
  beforeAll(async () => {
    morning = await morningOf(count);
  });

  it("fits the screen, in words that three metres can read, in the walking order", async () => {
    const { context, page } = await openWall(morning);
    expect(await page.locator("main li").count()).toBe(count);
    const { smallest, cut, scrolls } = await measure(page);
    expect(cut).toEqual([]);
    expect(scrolls).toBe(false);
    expect(smallest.note).toBeGreaterThanOrEqual(least.note);
    expect(smallest.word).toBeGreaterThanOrEqual(least.word);
    expect(smallest.sentence).toBeGreaterThanOrEqual(38);
    const short = page.locator("[data-wall=name]").first();
    expect(await short.evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize))).toBeGreaterThanOrEqual(
      least.name,
    );
    const rooms = await page.locator("[data-wall=name]").allTextContents();
    expect(rooms.slice(0, 3)).toEqual(["OR 1", "OR 2", "OR 3"]);
    expect(rooms.at(-1)).toBe(`Procedure ${count / 12}`);
    await expectAccessible(page);
    await context.close();
  });

  it("keeps every room in its place when its state turns, and is accessible in the dark", async () => {
    const { context, page } = await openWall(morning, "/wall?look=dark");
    const held = page.locator("main li").filter({ has: page.getByRole("heading", { name: HELD_ROOM, exact: true }) });
    await held.getByText("Do not use").waitFor();
    await held.getByText("held", { exact: true }).waitFor();
    const before = await held.boundingBox();
    const { department: small } = morning;
    const workstationId = await workstationIn(small, HELD_ROOM);
    const scope = { organisationId: small.admin.organisationId, facilityId: small.admin.facility.id };
    const [hold] = await small.database.inScope(scope, (tx) =>
      tx.hold.findMany({ where: { workstationId, liftedAt: null } }),
    );
    await small.must(
      liftHold,
      { workstationId, holdId: hold?.id ?? "", reason: "looked at" },
      await small.person("Rosa Osei", ["charge-provider"]),
    );
    await held.getByText("To check").waitFor();
    expect(await held.getByText("held", { exact: true }).count()).toBe(0);
    expect(await held.boundingBox()).toEqual(before);
    await expectAccessible(page);
    await context.close();
  });

  it("names nobody, in its page and in its stream", async () => {
    const { context, page, sent } = await openWall(morning);
    const streamed = await streamUntil(page, "event: wall", '"Procedure 1"', '"inBrief":"not checked yet"');
    expect(streamed).not.toMatch(NAMES);
    const [html = ""] = await sent();
    expect(html).toContain("Procedure 1");
    expect(html).not.toMatch(NAMES);
    expect(await page.content()).not.toMatch(NAMES);
    expect(await (await page.request.get("/api/v1/wall")).text()).not.toMatch(NAMES);
    await context.close();
  });
});

describe("a registered wall device", () => {
  it("shows the wall without anybody signed in, and nothing from the moment it is revoked", async () => {
    const morning = await morningOf(24);
    const { department: small, server } = morning;
    const code = "qm7hxk2tz9rbw4dcnf8gaypv3sje5uq6";
    const { deviceId } = await small.must(registerDevice, { name: "Corridor", code }, small.admin);
    const context = await morning.browser.newContext({ ...WALL, baseURL: server.url });
    const page = await context.newPage();
    await page.goto(`/wall/enter/${code}`);
    await page.waitForURL((url) => url.pathname === "/wall");
    await page.getByText("In use").first().waitFor();
    await isHeard(page);
    expect(await page.content()).not.toMatch(NAMES);
    expect((await page.request.get("/api/v1/board")).status()).toBe(401);
    await small.must(revokeDevice, { deviceId }, small.admin);
    await page.getByText("This screen is no longer signed in.").waitFor({ timeout: 10_000 });
    expect(new Set(await page.locator("[data-wall=word]").allTextContents())).toEqual(new Set(["Not known"]));
    expect((await page.request.get("/api/v1/wall")).status()).toBe(401);
    await context.close();
  });
});

describe("a wall of more rooms than one screen holds", () => {
  it("turns by keys, stands still when told to, and names the pages", async () => {
    const morning = await morningOf(96);
    const { context, page } = await openWall(morning);
    await page.getByText("page 1 of 2").waitFor();
    expect(await page.locator("main li").count()).toBe(48);
    expect((await measure(page)).cut).toEqual([]);
    await page.getByRole("button", { name: "Hold this page" }).focus();
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: /turn again/ }).waitFor();
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    await page.getByText("page 2 of 2").waitFor();
    expect(await page.locator("[data-wall=name]").last().textContent()).toBe("Procedure 8");
    await expectAccessible(page);
    await context.close();
  });
});

describe("a wall whose server goes", () => {
  it("withdraws every state within thirty seconds, and shows them again with the server", async () => {
    const morning = await morningOf(24);
    const { context, page } = await openWall(morning);
    await isHeard(page);
    await morning.server.killHard();
    const from = Date.now();
    await page.getByText(/Not live since \d\d:\d\d/).waitFor({ timeout: 30_000 });
    expect(Date.now() - from).toBeLessThanOrEqual(30_000);
    const words = await page.locator("[data-wall=word]").allTextContents();
    expect(new Set(words)).toEqual(new Set(["Not known"]));
    expect(await page.getByText(/ready/i).count()).toBe(0);
    expect((await measure(page)).cut).toEqual([]);
    await expectAccessible(page);
    await morning.server.restart();
    await page.getByText("In use").first().waitFor({ timeout: 60_000 });
    await context.close();
  });
});
