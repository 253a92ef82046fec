import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { found } from "@/lib/commands/found";
import { DEFAULT_ACCESS } from "@/lib/domain/access/model";
import type { Board } from "@/lib/schemas/board";
import { putAccessSettings } from "@/lib/storage/access";
import { openDatabase } from "@/lib/storage/client";
import { instant } from "@/lib/units/time";
import { type AppServer, startAppServer } from "@/tests/support/app-server";
import { DESK, launchBrowser } from "@/tests/support/browser";
import { createTestDatabase, type TestDatabase } from "@/tests/support/database";
import { expectAccessible, visitor } from "@/tests/support/page";
import { countTaps } from "@/tests/support/taps";

/** 05:40 on a Tuesday in Chicago. No list of that day is entered or imported anywhere in this test. */
const NOW = "2026-11-24T11:40:00Z";
const FIRST = "a first password here";

let database: TestDatabase;
let server: AppServer;
let browser: Browser;

beforeAll(async () => {
  database = await createTestDatabase();
  const owner = openDatabase(database.ownerUrl);
  const ids = await found(
    owner,
    { now: () => Date.parse(NOW) },
    {
      organisation: "Larkmoor Health",
      facility: "Larkmoor",
      timeZone: "America/Chicago",
      scheme: "US",
      pressureUnit: "psi",
      name: "Ada Brook",
      userId: "abrook",
      password: FIRST,
    },
  );
  await owner.close();
  // How a signature is asked for has tests of its own; here it would only hide what the set-up costs.
  const settings = { ...DEFAULT_ACCESS, signing: "none" as const };
  const app = openDatabase(database.appUrl);
  await app.inScope(ids, (tx) =>
    putAccessSettings(tx, ids.facilityId, { seen: 0, settings, by: ids.personId, at: instant(Date.parse(NOW)) }),
  );
  await app.close();
  server = await startAppServer({ database, now: Date.parse(NOW) });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
  await database?.drop();
});

const come = async (userId: string, path: string): Promise<Page> =>
  (await visitor(browser, server, DESK, { userId, password: FIRST }, path)).page;
const tab = async (page: Page, name: string) => {
  await page.getByRole("navigation", { name: "Set-up" }).getByRole("link", { name, exact: true }).click();
  await page.waitForFunction((title) => document.title.startsWith(title), name);
  await page.getByRole("heading", { level: 1, name }).waitFor();
};
const press = (page: Page, name: string | RegExp) => page.getByRole("button", { name, exact: true }).first().click();
const close = (page: Page) => page.getByRole("dialog").getByRole("button", { name: "Close" }).click();
/** The one form that is open. */
const form = (page: Page) => page.getByRole("dialog");
const fill = (page: Page, label: string, text: string) => form(page).getByLabel(label, { exact: true }).fill(text);

async function siteWords(page: Page): Promise<void> {
  await expectAccessible(page);
  await page.getByLabel("A group of rooms").selectOption("core");
  await page.getByRole("radio", { name: "bar", exact: true }).first().check();
  await press(page, "Save");
  await page.getByText("Every screen shows it from now on").waitFor();
}

async function rooms(page: Page): Promise<void> {
  await tab(page, "Rooms");
  await page.getByText("Begin with a core").waitFor();
  for (const [core, names, count] of [
    ["Main", "OR 1 to OR 18", 18],
    ["Day surgery", "DS 1 to DS 6", 6],
  ] as const) {
    await press(page, "Add a core");
    await fill(page, "Name", core);
    await press(page, "Add");
    await form(page).waitFor({ state: "detached" });
    await press(page, "Add rooms");
    await form(page).getByLabel("Core", { exact: true }).selectOption(core);
    await fill(page, "Names", names);
    await form(page).getByText(`${count} rooms:`).waitFor();
    await press(page, `Add ${count} rooms`);
    await form(page).getByText(`${count} rooms added`).waitFor();
    // The same once more is refused at the field, and what was typed stays.
    await fill(page, "Names", names);
    await press(page, `Add ${count} rooms`);
    await form(page)
      .getByText(/There is a room named so already/)
      .first()
      .waitFor();
    expect(await form(page).getByLabel("Names", { exact: true }).inputValue()).toBe(names);
    await close(page);
  }
  await page.getByText("24 rooms in 2 cores").waitFor();
  await expectAccessible(page);
}

async function equipment(page: Page): Promise<void> {
  await tab(page, "Equipment");
  await press(page, "Add a model");
  await fill(page, "Name", "Harrow 3");
  await fill(page, "Maker", "Harrowgate Works");
  await press(page, "Add model");
  await form(page).waitFor({ state: "detached" });
  await press(page, "Add a workstation");
  await fill(page, "Tag", "AW-01");
  await fill(page, "Serial number", "H3-001");
  await form(page).getByLabel("Stands in", { exact: true }).selectOption("OR 1");
  await press(page, "Add workstation");
  await form(page).getByText("AW-01 is added").waitFor();
  expect(await form(page).getByLabel("Tag", { exact: true }).inputValue()).toBe("AW-02");
  await fill(page, "Serial number", "H3-002");
  await press(page, "Add workstation");
  await form(page).getByText("AW-02 is added").waitFor();
  await close(page);
  await press(page, "Add a part to AW-01");
  const label = { "Serial number": "OX-1", "Water capacity, L": "4.8", "Rated contents, L": "660" };
  for (const [field, text] of Object.entries(label)) await fill(page, field, text);
  await fill(page, "Gauge pressure when full", "131");
  await press(page, "Add part");
  await form(page)
    .getByText(/is on AW-01/)
    .waitFor();
  await form(page).getByLabel("Part", { exact: true }).selectOption("Vaporizer");
  await fill(page, "Tag", "VP-1");
  await press(page, "Add part");
  await form(page)
    .getByText(/VP-1.* is on AW-01/)
    .waitFor();
  await expectAccessible(page);
  await close(page);
}

async function people(page: Page): Promise<void> {
  await tab(page, "People");
  for (const [name, userId] of [
    ["Ines Falk", "ifalk"],
    ["Otto Reed", "oreed"],
  ] as const) {
    await press(page, "Add a person");
    await fill(page, "Name", name);
    await fill(page, "User id", userId);
    await fill(page, "First password", "told in a corridor");
    await form(page).getByRole("checkbox", { name: "manager" }).check();
    await press(page, "Add person");
    await form(page).getByText(`${name} is added`).waitFor();
    await close(page);
  }
  await press(page, "Change Otto Reed");
  await press(page, "Otto Reed has left");
  await page.getByRole("list", { name: "People: have left" }).getByText("Otto Reed").waitFor();
  await press(page, "Change Ines Falk");
  await fill(page, "New first password", "short");
  await press(page, "Give this password");
  await form(page)
    .getByText(/at least 12 characters/)
    .last()
    .waitFor();
  await fill(page, "New first password", FIRST);
  await press(page, "Give this password");
  await form(page).getByText("Ines Falk signs in with the new password").waitFor();
  await expectAccessible(page);
  await close(page);
  await expectAccessible(page);
}

async function week(page: Page): Promise<void> {
  await tab(page, "Week");
  await press(page, "Choose all 24 rooms");
  await press(page, "Set the week of 24 rooms");
  await form(page).getByLabel("Monday: first case", { exact: true }).fill("07:15");
  await press(page, "The same until Friday");
  expect(await form(page).getByLabel("Friday: first case", { exact: true }).inputValue()).toBe("07:15");
  await form(page).getByRole("group", { name: "Saturday" }).getByText("runs").click();
  await press(page, "Saturday: the same as Friday");
  await expectAccessible(page);
  await press(page, "Save for 24 rooms");
  await form(page).waitFor({ state: "detached" });
  await page.getByText("Mon to Sat 07:15 to 15:30 · Sun closed").first().waitFor();
  await expectAccessible(page);
}

async function rule(page: Page): Promise<void> {
  await tab(page, "Rules");
  await page.getByLabel("Find a rule").fill("reserve-oxygen-low");
  await page.getByRole("group").filter({ hasText: "reserve-oxygen-low" }).locator("summary").click();
  await press(page, /^Change: /);
  await form(page).getByLabel("Why", { exact: true }).fill("Our policy asks for more.");
  await form(page).getByLabel("At least", { exact: true }).fill("80");
  await form(page).getByLabel("At least: unit").selectOption("bar");
  await expectAccessible(page);
  await press(page, "Propose");
  await page.getByText(/^Proposed: /).waitFor();
  await page.getByText("You proposed it; somebody else approves it").waitFor();
}

async function approved(page: Page): Promise<void> {
  await page.getByText(/^Proposed: /).waitFor();
  await expectAccessible(page);
  await press(page, "Approve: in force at once");
  await page.getByText(/^Proposed: /).waitFor({ state: "detached" });
  await page.getByText(/settings version 2/).waitFor();
}

describe("a week's set-up by a manager, from nothing", () => {
  it("words, rooms, equipment, people, the week and a rule; then the board on a day that nobody imported", async () => {
    const page = await come("abrook", "/set-up/facility");
    const job = await countTaps(page);
    await siteWords(page);
    await rooms(page);
    await equipment(page);
    await people(page);
    await week(page);
    await rule(page);
    const second = await come("ifalk", "/set-up/rules");
    await approved(second);

    await page.goto("/");
    await page.getByText("No list was entered for today: every room runs by the weekly template.").waitFor();
    await page
      .getByText(/None of 24 rooms is ready yet|of 24 rooms/)
      .first()
      .waitFor();
    await page
      .getByRole("navigation", { name: "Core" })
      .getByRole("link", { name: /Day surgery/ })
      .waitFor();
    await expectAccessible(page);
    job.tell("a week's set-up from nothing: 24 rooms, two workstations, two people, the week, a rule by two");
    const board = (await (await page.request.get("/api/v1/board")).json()) as Board;
    expect(board.rooms.map(({ listFrom, firstCase }) => ({ listFrom, firstCase }))).toEqual(
      Array.from({ length: 24 }, () => ({ listFrom: "week", firstCase: "2026-11-24T13:15:00.000Z" })),
    );
  });
});
