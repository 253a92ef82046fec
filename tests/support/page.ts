import { AxeBuilder } from "@axe-core/playwright";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { expect } from "vitest";
import type { AppServer } from "@/tests/support/app-server";

export interface Visitor {
  readonly context: BrowserContext;
  readonly page: Page;
}

/** What a page said on its console that nobody should have to read: kept per visitor, looked at by the test. */
const complaints = new WeakMap<Page, string[]>();
/** A lost connection is reported by the browser itself while a server is down; that is what some tests do on purpose. */
const EXPECTED =
  /ERR_CONNECTION|ERR_EMPTY_RESPONSE|ERR_INCOMPLETE_CHUNKED|Failed to load resource|unknown error occurred when fetching the script/;

/** Somebody signed in through the sign-in page, on a device of that size. */
export async function visitor(
  browser: Browser,
  server: AppServer,
  device: { readonly viewport: { width: number; height: number }; readonly hasTouch?: boolean },
  who: { readonly userId: string; readonly password: string },
  path = "/",
): Promise<Visitor> {
  const context = await browser.newContext({ ...device, baseURL: server.url, acceptDownloads: true });
  const page = await context.newPage();
  const said: string[] = [];
  complaints.set(page, said);
  page.on("pageerror", (error) => said.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error" && !EXPECTED.test(message.text())) said.push(message.text());
  });
  await page.goto(`/sign-in?next=${encodeURIComponent(path)}`);
  await page.getByLabel(/user id/i).fill(who.userId);
  await page.getByLabel(/^password/i).fill(who.password);
  await page.getByRole("button", { name: /^sign in/i }).click();
  await page.waitForURL((url) => !url.pathname.startsWith("/sign-in"));
  return { context, page };
}

/** WCAG 2.2 AA by axe, no sideways scrolling, and nothing on the console. */
export async function expectAccessible(page: Page): Promise<void> {
  const before = complaints.get(page)?.length ?? 0;
  const { violations } = await new AxeBuilder({ page })
    // In the page itself, not in a second one beside it: half the time, and there are no frames to be joined.
    .setLegacyMode(true)
    .withTags(["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"])
    .analyze();
  // On paper axe tries a style of its own, which the content security policy stops, as it should.
  const since = complaints.get(page)?.splice(before) ?? [];
  complaints.get(page)?.push(...since.filter((text) => !text.startsWith("Applying inline style violates")));
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(" ")).join(", ")}`)).toEqual(
    [],
  );
  await expectFits(page);
}

/** No sideways scrolling, and nothing on the console. */
export async function expectFits(page: Page): Promise<void> {
  const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  expect(overflow, `sideways scrolling on ${page.url()}`).toBeLessThanOrEqual(1);
  expect(complaints.get(page) ?? []).toEqual([]);
}
