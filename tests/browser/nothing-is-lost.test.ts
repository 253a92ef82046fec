import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { CheckItemView } from "@/lib/schemas/check";
import { answerItem, checkOn } from "@/tests/support/answering";
import { DESK, PHONE } from "@/tests/support/browser";
import { type BrowserDepartment, browserDepartment, PASSWORD } from "@/tests/support/browser-department";
import { expectAccessible } from "@/tests/support/page";
import { goodAnswer } from "@/tests/support/small-department";

let morning: BrowserDepartment;
beforeAll(async () => {
  morning = await browserDepartment();
});
afterAll(() => morning?.close());

/** Ends every open session of the organisation, as a lock or a time-out would, and waits until the server has noticed. */
async function endSessions(page: Page): Promise<void> {
  const { admin, database } = morning.department;
  const scope = { organisationId: admin.organisationId, facilityId: admin.facility.id };
  await database.inScope(scope, (tx) =>
    tx.session.updateMany({ where: { endedAt: null }, data: { endedAt: new Date() } }),
  );
  await expect.poll(async () => (await page.request.get("/api/v1/session")).status(), { timeout: 15_000 }).toBe(401);
}

const startCheckOn = async (page: Page): Promise<readonly CheckItemView[]> => {
  await page.goto("/tasks");
  const way = page.getByRole("button", { name: /^(Start check|Go on).*OR 1$/ });
  const begins = (await way.textContent())?.startsWith("Start") ?? false;
  await way.click();
  if (begins) await page.getByRole("dialog").getByRole("button", { name: "AW-01" }).click();
  await page.waitForURL(/\/checks\//);
  return (await checkOn(page)).items;
};

/** The same check opened by another person, who finds it begun: it is no task of theirs until they take it over. */
const joinCheckOn = async (page: Page): Promise<readonly CheckItemView[]> => {
  const { rooms } = await (await page.request.get("/api/v1/board")).json();
  const workstationId = rooms.find(({ name }: { name: string }) => name === "OR 1").workstation.id;
  const begun = await page.request.post("/api/v1/commands/start-check", {
    data: { workstationId, kind: "daily" },
    headers: { "Idempotency-Key": crypto.randomUUID() },
  });
  await page.goto(`/checks/${(await begun.json()).checkId}`);
  return (await checkOn(page)).items;
};

describe("nothing that was typed is lost", () => {
  it("a session that ends in the middle of a check is renewed in place, and the answer goes out", async () => {
    const phone = await morning.page("rosei", PHONE, "/tasks");
    const [first, second] = await startCheckOn(phone);
    if (!first || !second) throw new Error("the check asks nothing");
    await answerItem(phone, first, goodAnswer(first));
    await expect.poll(async () => (await checkOn(phone)).recorded.length).toBe(1);
    await endSessions(phone);
    await answerItem(phone, second, goodAnswer(second));
    const dialog = phone.getByRole("dialog", { name: "Sign in again to go on" });
    await dialog.waitFor();
    await expectAccessible(phone);
    await dialog.getByLabel(/^Password/).fill(PASSWORD);
    await dialog.getByRole("button", { name: "Sign in and go on" }).click();
    await dialog.waitFor({ state: "hidden" });
    await expect
      .poll(async () => (await checkOn(phone)).recorded.map(({ key }) => key))
      .toEqual([first.key, second.key]);
  });

  it("figures that were typed but not recorded are there after a reload", async () => {
    const desk = await morning.page("mlind", DESK, "/tasks");
    const items = await joinCheckOn(desk);
    const gauge = items.find(({ form }) => form.kind === "gauge");
    if (!gauge) throw new Error("the check asks no gauge");
    await desk.getByRole("button", { name: new RegExp(`^\\d+.*${escaped(gauge.title)}`) }).click();
    await desk.getByLabel(`${gauge.title}, in psi`).fill("1875");
    await desk.reload();
    await desk.getByRole("button", { name: new RegExp(`^\\d+.*${escaped(gauge.title)}`) }).click();
    await expect.poll(() => desk.getByLabel(`${gauge.title}, in psi`).inputValue()).toMatch(/1,?875/);
  });

  it("an impossible or foreign number is refused by name, and stays in the field", async () => {
    const desk = await morning.page("mlind", DESK, "/tasks");
    const items = await joinCheckOn(desk);
    const gauge = items.find(({ form }) => form.kind === "gauge");
    if (!gauge) throw new Error("the check asks no gauge");
    await desk.getByRole("button", { name: new RegExp(`^\\d+.*${escaped(gauge.title)}`) }).click();
    const field = desk.getByLabel(`${gauge.title}, in psi`);
    for (const [typed, said] of [
      ["1,5", /decimal comma|comma/i],
      ["20000", /20,?000/],
      ["-3", /below zero/],
      ["full", /number/i],
    ] as const) {
      await field.focus();
      await field.fill(typed);
      await desk
        .getByRole("button", { name: /^(Record|Next|Later)/ })
        .last()
        .click();
      await desk.getByRole("alert").filter({ hasText: said }).first().waitFor();
      // At rest the field shows thousands apart; the text itself is what was typed.
      expect((await field.inputValue()).replace(/,(?=\d{3}$)/, "")).toBe(typed);
    }
  });

  it("two people cannot take one task: the second is told who has it", async () => {
    const [rosa, mika] = [await morning.page("rosei", PHONE, "/tasks"), await morning.page("mlind", PHONE, "/tasks")];
    const claim = (page: Page) => page.getByRole("button", { name: /^Claim: .*AW-02|^Claim:/ }).first();
    await claim(mika).waitFor();
    const name = await claim(rosa).getAttribute("aria-label");
    await claim(rosa).click();
    // On a phone it is in the menu of the task.
    await rosa.locator("[data-give-back]").first().waitFor({ state: "attached" });
    const key = (await (await rosa.request.get("/api/v1/tasks")).json()).tasks.find(
      (task: { claim: unknown }) => task.claim !== null,
    ).key;
    const answer = await mika.request.post("/api/v1/commands/claim-task", {
      data: { key },
      headers: { "Idempotency-Key": "second-claim-1" },
    });
    expect(answer.status()).toBe(409);
    expect((await answer.json()).detail).toContain("Rosa Osei");
    await mika
      .getByText(/Rosa Osei, since/)
      .first()
      .waitFor();
    expect(name).toMatch(/^Claim/);
  });
});

describe("the keyboard alone", () => {
  it("answers items of a check on the desk", async () => {
    const desk = await morning.page("mlind", DESK, "/tasks");
    const items = await joinCheckOn(desk);
    const [first] = items;
    if (first?.form.kind !== "pass") throw new Error("the procedure begins with the self-inflating bag");
    await desk.getByRole("heading", { level: 2, name: first.title }).waitFor();
    await desk.keyboard.press("y");
    await expect.poll(async () => (await checkOn(desk)).recorded.some(({ key }) => key === first.key)).toBe(true);
  });
});

describe("the forbidden path", () => {
  it("a technician finds no import and no people to change", async () => {
    const desk = await morning.page("rosei", DESK, "/set-up/people");
    expect(await desk.getByRole("button", { name: /add/i }).count()).toBe(0);
    const refused = await desk.request.post("/api/v1/commands/add-person", {
      data: { userId: "intruder", name: "In Truder", roles: ["administrator"], password: "a long enough password" },
    });
    expect(refused.status()).toBe(403);
    await expectAccessible(desk);
  });
});

const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
