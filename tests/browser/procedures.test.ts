import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { importDepartment } from "@/lib/commands/import-department";
import type { CheckView } from "@/lib/schemas/check";
import { DESK, PHONE } from "@/tests/support/browser";
import { type BrowserDepartment, browserDepartment, PASSWORD } from "@/tests/support/browser-department";
import { addRooms } from "@/tests/support/many-rooms";
import { expectAccessible } from "@/tests/support/page";
import { beginCheck } from "@/tests/support/room-work";

let place: BrowserDepartment;
const MANAGERS = [
  "user id,name,roles,initial password",
  `hpeel,Howard Peel,manager,${PASSWORD}`,
  `abrandt,Anneke Brandt,manager,${PASSWORD}`,
].join("\n");
const QUESTION = "Wall clock is right";

beforeAll(async () => {
  place = await browserDepartment("2026-11-24T11:40:00Z", async (department) => {
    await addRooms(department, 12);
    await department.must(importDepartment, { files: { people: MANAGERS } }, department.admin);
  });
});
afterAll(() => place?.close());

describe("the next version of the daily check", () => {
  it("is written by one, read and approved by another; a check that was begun keeps its version", async () => {
    const mika = await place.department.person("Mika Vale", ["technician"]);
    const begin = async (room: string) => (await beginCheck(place.department, room, mika)).id;
    const begun = await begin("OR 1");
    const phone = await place.page("rosei", PHONE, `/checks/${begun}`);
    const checkOf = async (id: string) => (await (await phone.request.get(`/api/v1/checks/${id}`)).json()) as CheckView;
    const before = await checkOf(begun);
    const versionShown = async (version: number) => {
      await phone.getByRole("button", { name: "All items" }).click();
      await phone.getByText(`version ${version}.`).waitFor();
      await phone.keyboard.press("Escape");
    };
    await versionShown(before.procedure?.version ?? 0);

    const howard = await place.page("hpeel", DESK, "/set-up/procedures");
    const daily = howard.getByRole("region", { name: /^Daily check/ });
    await daily.getByRole("button", { name: "Write the next version" }).click();
    await howard.getByRole("button", { name: "Add a question of our own" }).click();
    await howard.getByRole("dialog").getByRole("button", { name: "Add at the end" }).click();
    await howard.getByRole("dialog").getByText("Choose one.").waitFor();
    await howard.getByRole("dialog").getByLabel("Question").fill(QUESTION);
    await howard.getByRole("dialog").getByText("The room", { exact: true }).click();
    await howard.getByRole("dialog").getByRole("button", { name: "Add at the end" }).click();
    await howard.getByRole("button", { name: `Up: ${QUESTION}` }).click();
    await howard.getByRole("button", { name: `Edit: ${QUESTION}` }).click();
    await howard.getByRole("dialog").getByLabel("How it is done").fill("Compare it with your own watch.");
    await expectAccessible(howard);
    await howard.getByRole("dialog").getByRole("button", { name: "Put into the draft" }).click();
    await howard.getByText("Not saved yet").waitFor();

    const anneke = await place.page("abrandt", DESK, "/set-up/procedures/daily");
    await anneke.getByLabel("Name", { exact: true }).fill("Another name");
    await howard.getByRole("button", { name: "Save the draft" }).click();
    await howard.getByText(/^New:/).waitFor();
    expect(await howard.getByText("Another order", { exact: false }).isVisible()).toBe(false);
    await anneke.getByRole("button", { name: "Save the draft" }).click();
    await anneke
      .getByText(/Howard Peel/)
      .first()
      .waitFor();
    expect(await anneke.getByLabel("Name", { exact: true }).inputValue()).toBe("Another name");
    await anneke.getByText("Howard Peel saved revision").waitFor();
    await anneke.reload();
    await anneke.getByText(QUESTION).first().waitFor();

    await howard.getByLabel("Why", { exact: true }).fill("Times of entries were wrong");
    await howard.getByRole("button", { name: "Propose" }).click();
    await howard.getByText("You wrote in it: somebody else approves it").waitFor();
    await expectAccessible(howard);
    await anneke.goto("/set-up/procedures/daily");
    await anneke.getByText(QUESTION).first().waitFor();
    await anneke.getByRole("button", { name: "Approve and sign" }).click();
    await anneke.waitForURL(/\/set-up\/procedures$/);
    await expectAccessible(anneke);

    expect((await checkOf(begun)).items.map(({ title }) => title)).toEqual(before.items.map(({ title }) => title));
    expect((await checkOf(begun)).procedure?.version).toBe(before.procedure?.version);
    await phone.reload();
    await versionShown(before.procedure?.version ?? 0);
    // The server's clock has gone on meanwhile; this one is set.
    place.department.clock.add(5);
    const { items, procedure } = await checkOf(await begin("OR 2"));
    expect(items.map(({ title }) => title)).toContain(QUESTION);
    expect(procedure?.version).toBe((before.procedure?.version ?? 0) + 1);
  });
});
