import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { answerLine } from "@/lib/exchange/calculator/answer-line";
import { CALCULATIONS } from "@/lib/exchange/calculator/registry";
import { type AppServer, startAppServer } from "@/tests/support/app-server";
import { DESK, launchBrowser, PHONE } from "@/tests/support/browser";
import { createTestDatabase, type TestDatabase } from "@/tests/support/database";
import { expectAccessible, expectFits } from "@/tests/support/page";

let database: TestDatabase;
let server: AppServer;
let browser: Browser;

beforeAll(async () => {
  database = await createTestDatabase();
  server = await startAppServer({ database, now: Date.parse("2026-11-25T11:40:00Z") });
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
  await database?.drop();
});

type Device = Parameters<Browser["newContext"]>[0];

/** Somebody who is not signed in; what the page complains of fails the test. */
async function stranger(device: Device): Promise<{ page: Page; complaints: string[]; close: () => Promise<void> }> {
  const context = await browser.newContext({ ...device, baseURL: server.url });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on("pageerror", (error) => complaints.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
  return { page, complaints, close: () => context.close() };
}

const answer = (page: Page) => page.getByRole("region", { name: "Answer" });
const field = (page: Page, label: string) => page.getByLabel(label, { exact: true });

const NARROW = { viewport: { width: 320, height: 640 } };
const ALL = CALCULATIONS.map(({ name }) => name);
/** Forms and answers of each kind: figures, several results, rows, groups, texts, dates. */
const UNLIKE =
  "cylinder-contents endurance two-readings department-endurance trend service-due electrical-safety gs1".split(" ");

describe("the calculator page, without signing in", () => {
  it.each([
    ["a phone", PHONE, ALL],
    ["a desk in the dark", { ...DESK, colorScheme: "dark" as const }, UNLIKE],
    ["320 px", NARROW, UNLIKE],
  ] satisfies [string, Device, readonly string[]][])("is accessible and quiet on %s", async (_name, device, names) => {
    const { page, complaints, close } = await stranger(device);
    for (const { name, title } of CALCULATIONS.filter((one) => names.includes(one.name))) {
      await page.goto(`/calculator?calculation=${name}`);
      await page.getByRole("heading", { level: 2, name: title, exact: true }).waitFor();
      // Forms of one kind differ in their words alone: axe looks at one of each.
      if (UNLIKE.includes(name) && device !== NARROW) await expectAccessible(page);
      else await expectFits(page);
      expect(await answer(page).textContent(), name).not.toMatch(/NaN|undefined|\[object|No answer/);
    }
    expect(complaints).toEqual([]);
    await close();
  });

  it("answers at once what is typed, and says what a field needs", async () => {
    const { page, close } = await stranger(DESK);
    await page.goto("/calculator");
    await expectText(page, "660 L");
    await field(page, "Gauge pressure, psi").fill("1000");
    await expectText(page, "340 L");
    await field(page, "Gauge pressure, psi").fill("1,9");
    await page.getByText(/has a comma/).waitFor();
    await expectText(page, "No answer yet");
    expect(await field(page, "Gauge pressure, psi").getAttribute("aria-invalid")).toBe("true");
    await field(page, "Gauge pressure, psi").fill("");
    await page.getByText(/Missing; must be/).waitFor();
    await field(page, "Gauge pressure, psi").fill("-5");
    await expectText(page, "below zero");
    await close();
  });

  it("keeps the gauge when its unit changes, and gives the line that the command line answers", async () => {
    const { page, close } = await stranger(DESK);
    await page.goto("/calculator?calculation=cylinder-contents");
    await page.getByRole("radio", { name: "bar" }).check();
    expect(await field(page, "Gauge pressure, bar").inputValue()).toBe("131");
    await expectText(page, "660 L");
    const line = await page
      .getByRole("region", { name: "The same on the command line" })
      .locator("code")
      .last()
      .textContent();
    const { value } = JSON.parse(answerLine(line ?? "") ?? "null");
    expect(value).toBeGreaterThan(659.5);
    expect(value).toBeLessThan(660.5);
    await close();
  });

  it("tells a floor for liquid nitrous oxide, and draws the plateau", async () => {
    const { page, close } = await stranger(PHONE);
    await page.goto("/calculator?calculation=cylinder-contents");
    await field(page, "Gas").selectOption("nitrous-oxide");
    await field(page, "Gauge pressure, psi").fill("718");
    await field(page, "Temperature, °C").fill("20");
    await expectText(page, "at least 409 L");
    await page.getByRole("img", { name: /Pressure of nitrous oxide against contents/ }).waitFor();
    await page.getByText("The plot as a table").click();
    await page.getByRole("table", { name: /Gauge pressure, psi, by contents/ }).waitFor();
    await close();
  });

  it("shows the fields of the method, and takes rows away and adds them", async () => {
    const { page, close } = await stranger(DESK);
    await page.goto("/calculator?calculation=cylinder-contents");
    await field(page, "Method").selectOption("factor");
    expect(await field(page, "Water capacity, L").count()).toBe(0);
    await field(page, "Tank factor, L/psi").fill("0.28");
    await expectText(page, "532 L");
    await page.goto("/calculator?calculation=oxygen-cell-life");
    await page.getByRole("button", { name: "Remove no. 1" }).click();
    await page.getByRole("button", { name: "Add another" }).click();
    await expectText(page, "A field is missing|add up to 32 hours");
    await close();
  });

  it("goes by its address, and an unknown one is not found", async () => {
    const { page, close } = await stranger(PHONE);
    await page.goto("/calculator");
    await field(page, "Calculation").selectOption("endurance");
    await page.getByRole("button", { name: "Show" }).click();
    await page.waitForURL(/calculation=endurance/);
    await page.getByRole("img", { name: /How long the reserve lasts/ }).waitFor();
    const response = await page.goto("/calculator?calculation=nothing");
    expect(response?.status()).toBe(404);
    await close();
  });
});

async function expectText(page: Page, text: string): Promise<void> {
  await answer(page)
    .filter({ hasText: new RegExp(text.replaceAll(" ", "\\s*")) })
    .waitFor({ timeout: 10_000 });
}
