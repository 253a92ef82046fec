import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { DESK, PHONE } from "@/tests/support/browser";
import { type BrowserDepartment, browserDepartment } from "@/tests/support/browser-department";
import { addRooms, HELD_ROOM, oneOfEach } from "@/tests/support/many-rooms";
import { expectAccessible } from "@/tests/support/page";

const NARROW = { viewport: { width: 320, height: 640 }, hasTouch: true };
const shown = (page: Page): Promise<string[]> => page.locator("main section h3").allTextContents();
/** The rooms may come after their page. */
const haveCome = (page: Page) => page.getByRole("searchbox", { name: "Find a room" }).waitFor();

/** Moves the focus by keys alone until it stands on that link. */
async function tabTo(page: Page, name: RegExp): Promise<void> {
  for (let steps = 0; steps < 40; steps += 1) {
    await page.keyboard.press("Tab");
    const text = await page.evaluate(() => document.activeElement?.textContent ?? "");
    if (name.test(text)) return;
  }
  throw new Error(`no way to ${name} by the tabulator`);
}

describe.each([24, 48])("the rooms of a department of %i", (count) => {
  let morning: BrowserDepartment;
  beforeAll(async () => {
    morning = await browserDepartment(undefined, async (small) => {
      await addRooms(small, count);
      const technician = await small.person("Rosa Osei", ["technician"]);
      await oneOfEach(small, technician, await small.person("Karl Brandt", ["provider"]));
    });
  });
  afterAll(() => morning?.close());

  it("stand with the problems on top, and are accessible on a desk, a phone and at 320 px", async () => {
    for (const device of [DESK, PHONE, NARROW]) {
      const { context, page } = await morning.come("imarlow", device);
      await haveCome(page);
      expect((await shown(page))[0]).toBe(HELD_ROOM);
      // All but the one that is closed, which has no row of its own.
      await expect.poll(() => shown(page)).toHaveLength(count - 1);
      await expectAccessible(page);
      await context.close();
    }
  });

  it("are filtered by keyboard alone; the choice stands in the address, and the way back undoes it", async () => {
    const { context, page } = await morning.come("imarlow", DESK);
    await haveCome(page);
    await tabTo(page, /^Problems 1$/);
    await page.keyboard.press("Enter");
    await page.waitForURL(/\?show=problems$/);
    await expect.poll(() => shown(page)).toEqual([HELD_ROOM]);
    await page.getByText(`1 of ${count} rooms shown, problems.`).waitFor();
    await tabTo(page, /^Heart and vascular/);
    await page.keyboard.press("Enter");
    await page.waitForURL(/suite=Heart/);
    await page.getByText(/^No room is like that, Heart and vascular, problems\./).waitFor();
    await expect.poll(() => shown(page)).toEqual([]);
    await expectAccessible(page);
    await page.goBack();
    await page.getByText(`1 of ${count} rooms shown, problems.`).waitFor();
    await expect.poll(() => shown(page)).toEqual([HELD_ROOM]);
    await context.close();
  });

  it("are found by name, and an address with a filter opens as it was left, with the sentence still about all", async () => {
    const { context, page } = await morning.come("imarlow", DESK, "/?suite=Heart+and+vascular&find=hv+2");
    await haveCome(page);
    await expect.poll(() => shown(page)).toEqual(["HV 2"]);
    await page.getByText(`2 of ${count - 1} rooms are ready`).waitFor();
    const field = page.getByRole("searchbox", { name: "Find a room" });
    expect(await field.inputValue()).toBe("hv 2");
    await field.fill("hv");
    await page.waitForURL(/find=hv$/);
    await expect.poll(() => shown(page)).toHaveLength(count / 6);
    await page.getByRole("link", { name: "Show all" }).click();
    await page.waitForURL((url) => url.search === "");
    await expect.poll(() => shown(page)).toHaveLength(count - 1);
    await context.close();
  });
});
