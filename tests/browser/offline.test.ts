import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { scopeOf } from "@/lib/auth/actor";
import { signCheck } from "@/lib/commands/sign-check";
import type { CheckItemView, CheckView } from "@/lib/schemas/check";
import { answerItem, checkOn } from "@/tests/support/answering";
import { PHONE } from "@/tests/support/browser";
import { type BrowserDepartment, browserDepartment, PASSWORD } from "@/tests/support/browser-department";
import { type MortalBrowser, mortalBrowser } from "@/tests/support/mortal-browser";
import { expectAccessible } from "@/tests/support/page";
import { goodAnswer } from "@/tests/support/small-department";
import { widen } from "@/tests/support/wider-department";

let morning: BrowserDepartment;
let phone: MortalBrowser;
beforeAll(async () => {
  [morning, phone] = await Promise.all([browserDepartment(undefined, widen), mortalBrowser()]);
});
afterAll(async () => {
  await phone?.remove();
  await morning?.close();
});

const signIn = async (page: Page, userId: string) => {
  await page.getByLabel(/user id/i).fill(userId);
  await page.getByLabel(/^password/i).fill(PASSWORD);
  await page.getByRole("button", { name: /^sign in/i }).click();
  await page.waitForURL((url) => !url.pathname.startsWith("/sign-in"));
};

/** The device has what it takes: the worker with its shell, and the questions of the workstations to be checked. */
async function prepared(page: Page): Promise<void> {
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  const starts = () =>
    page.evaluate(
      () =>
        new Promise<number>((resolve, reject) => {
          const opening = indexedDB.open("yokeboard");
          opening.onerror = () => reject(opening.error);
          opening.onsuccess = () => {
            const counting = opening.result.transaction("starts").objectStore("starts").count();
            counting.onsuccess = () => {
              opening.result.close();
              resolve(counting.result);
            };
          };
        }),
    );
  await expect.poll(starts, { timeout: 20_000 }).toBeGreaterThanOrEqual(2);
}

async function startCheck(page: Page, room: string): Promise<readonly CheckItemView[]> {
  const { rooms } = await (await page.request.get(`${morning.server.url}/api/v1/board`)).json();
  const workstationId = rooms.find(({ name }: { name: string }) => name === room).workstation.id;
  const begun = await page.request.post(`${morning.server.url}/api/v1/commands/start-check`, {
    data: { workstationId, kind: "daily" },
    headers: { "Idempotency-Key": crypto.randomUUID(), origin: morning.server.url },
  });
  const { checkId } = await begun.json();
  await page.goto(`${morning.server.url}/checks/${checkId}`);
  const view = await page.request.get(`${morning.server.url}/api/v1/checks/${checkId}`);
  return ((await view.json()) as CheckView).items;
}

/** All that the facility has of checks by now. */
const stored = () =>
  morning.department.database.inScope(scopeOf(morning.department.admin), async (tx) => ({
    observations: await tx.observation.findMany(),
    checks: await tx.checkRun.findMany(),
    signatures: await tx.signature.findMany(),
  }));

const waiting = (page: Page, words: RegExp) => page.getByRole("link", { name: words });

describe("a phone that loses the network, and then its battery", () => {
  it("keeps every answer through a reload and a killed browser, begins a check by itself, and sends all of it once", async () => {
    let page = await phone.page();
    const { url } = morning.server;
    await page.goto(`${url}/sign-in?next=%2F`);
    await signIn(page, "rosei");
    await prepared(page);
    const [first, second, third] = await startCheck(page, "OR 1");
    if (!first || !second || !third) throw new Error("the check asks too little");
    const checkId = new URL(page.url()).pathname.split("/").at(-1) ?? "";
    await answerItem(page, first, goodAnswer(first));
    await expect
      .poll(async () => (await (await page.request.get(`${url}/api/v1/checks/${checkId}`)).json()).recorded.length)
      .toBe(1);

    await morning.server.killHard();
    await answerItem(page, second, goodAnswer(second));
    await answerItem(page, third, goodAnswer(third));
    await waiting(page, /^2 answers wait on this device since \d\d:\d\d/).waitFor();

    await page.reload();
    await page.getByText("No connection.").first().waitFor();
    await waiting(page, /^2 answers wait on this device/).waitFor();
    await page
      .getByText(/^3 of \d+$/)
      .first()
      .waitFor();

    await phone.die();
    await phone.rise();
    page = await phone.page();
    await page.goto(`${url}/waiting`);
    await waiting(page, /^2 answers wait on this device/).waitFor();
    await page.getByRole("button", { name: /^OR 2 ·/ }).click();
    await answerItem(page, first, goodAnswer(first));
    await waiting(page, /^3 answers wait on this device/).waitFor();

    await morning.server.restart();
    await page.getByText("The connection is back.").waitFor({ timeout: 20_000 });
    await page.goto(`${url}/waiting`);
    // A cookie may not have reached the disk before the battery died.
    if (new URL(page.url()).pathname === "/sign-in") await signIn(page, "rosei");
    await page.getByText("Nothing waits on this device.").waitFor({ timeout: 20_000 });
    const { observations, checks, signatures } = await stored();
    expect(observations.map(({ item }) => item).sort()).toEqual(
      [first.item, first.item, second.item, third.item].sort(),
    );
    expect([checks.length, signatures.length]).toEqual([2, 0]);
  });

  it("keeps what the server refuses, with its reason, until a person has dealt with it", async () => {
    const { page, context } = await morning.come("mlind", PHONE, "/");
    await prepared(page);
    const items = await startCheck(page, "OR 2");
    const [first, second] = items;
    if (!first || !second) throw new Error("the check asks too little");
    await answerItem(page, first, goodAnswer(first));
    await expect.poll(async () => (await checkOn(page)).recorded.length).toBe(1);
    const { id, version } = await checkOn(page);
    await context.setOffline(true);
    await answerItem(page, second, goodAnswer(second));
    await waiting(page, /^1 answer waits on this device/).waitFor();
    const other = await morning.department.person("Ona Reed", ["technician"]);
    morning.department.clock.add(10);
    await morning.department.must(signCheck, { checkId: id, seenVersion: version }, other);
    await context.setOffline(false);
    await page.getByText("1 refused").waitFor({ timeout: 20_000 });
    await page.goto("/waiting");
    await page.getByText(/Refused:.*signed by Ona Reed/).waitFor();
    await expectAccessible(page);
    await page.getByRole("button", { name: "Remove" }).click();
    await page.getByRole("button", { name: /^Yes, remove/ }).click();
    await page.getByText("Nothing waits on this device.").waitFor();
  });
});
