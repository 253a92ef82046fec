import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { startCase } from "@/lib/commands/occupancy";
import type { RoomView } from "@/lib/schemas/room";
import type { TaskDetail } from "@/lib/schemas/task";
import { answerOn } from "@/tests/support/answering";
import { DESK, PHONE } from "@/tests/support/browser";
import { type BrowserDepartment, browserDepartment } from "@/tests/support/browser-department";
import { addRooms } from "@/tests/support/many-rooms";
import { expectAccessible } from "@/tests/support/page";
import { checkWhole, roomNamed } from "@/tests/support/room-work";
import { goodAnswer } from "@/tests/support/small-department";
import { addSpares } from "@/tests/support/spares";
import { countTaps } from "@/tests/support/taps";

/** 10:30 in Chicago, between two cases. */
const NOW = "2026-11-24T16:30:00Z";

let day: BrowserDepartment;
beforeAll(async () => {
  day = await browserDepartment(NOW, async (department) => {
    await addRooms(department, 12);
    const technician = await department.person("Noor Halabi", ["technician"]);
    const provider = await department.person("June Whitlow", ["provider"]);
    await addSpares(department, technician);
    for (const room of ["OR 2", "OR 3"]) await checkWhole(department, room, technician);
    await department.must(startCase, { roomId: (await roomNamed(department, "OR 2")).roomId }, provider);
  });
});
afterAll(() => day?.close());

const roomOn = async (page: Page, id: string): Promise<RoomView> =>
  (await (await page.request.get(`/api/v1/rooms/${id}`)).json()) as RoomView;

async function recheck(page: Page): Promise<string[]> {
  await page.waitForURL(/\/tasks\/recheck/);
  const key = new URL(page.url()).pathname.split("/").at(-1) ?? "";
  const { items } = (await (await page.request.get(`/api/v1/tasks/${key}`)).json()) as TaskDetail;
  for (const item of items)
    await answerOn(page.getByRole("region", { name: item.title, exact: true }), item, goodAnswer(item));
  await page.getByRole("button", { name: /^Sign as performed/ }).click();
  await page.getByText("Done and signed").waitFor();
  return items.map(({ item }) => item);
}

/** A place of the gas path in the list that a phone gets; a zone with something to do stands open already. */
async function openPlace(page: Page, zone: RegExp, place: RegExp): Promise<void> {
  const heading = page.getByRole("heading", { name: zone }).filter({ visible: true });
  await heading.waitFor();
  const button = page.getByRole("button", { name: place }).filter({ visible: true }).first();
  if (!(await button.isVisible())) await heading.click();
  await button.click();
}

describe("a turnover with a change of the vaporizer", () => {
  it("the case ends, another vaporizer is fitted, what it made due is done, the next case starts", async () => {
    const { roomId } = await roomNamed(day.department, "OR 2");
    const phone = await day.page("rosei", PHONE, `/rooms/${roomId}`);
    const job = await countTaps(phone);
    await phone.getByText(/In use since/).waitFor();
    await expectAccessible(phone);
    await phone.getByRole("button", { name: "Case ended" }).click();
    await phone.getByRole("button", { name: "Case ended" }).waitFor({ state: "detached" });
    await openPlace(phone, /^Low pressure/, /^Sevoflurane/);
    await phone.getByRole("button", { name: "Fit another vaporizer" }).click();
    const dialog = phone.getByRole("dialog", { name: "Fit another vaporizer on mount 1" });
    await dialog.getByText(/Low-pressure leak test, with the vaporizer on and off/).waitFor();
    await expectAccessible(phone);
    await dialog.getByRole("radio", { name: /^VP-92 Isoflurane/ }).check();
    await dialog.getByRole("button", { name: /^Changed: VP-92 on, VP-\d+ off/ }).click();
    await phone.getByText("VP-92 is on mount 1").waitFor();
    await expectAccessible(phone);
    await phone.getByRole("link", { name: "Recheck now" }).click();
    const items = await recheck(phone);
    expect(items).toEqual(expect.arrayContaining(["low-pressure-leak", "vaporizer-seated", "filler-closed"]));
    await phone.getByRole("link", { name: "OR 2", exact: true }).click();
    await phone.getByText("Ready", { exact: true }).waitFor();
    job.tell("turnover with another vaporizer, rechecked, ready");

    const provider = await day.page("kbrandt", PHONE, `/rooms/${roomId}`);
    const start = await countTaps(provider);
    await provider.getByRole("button", { name: "Case started" }).click();
    await provider.getByText(/In use since/).waitFor();
    start.tell("the next case started");
    expect(start.taps()).toBe(1);
    expect((await roomOn(provider, roomId)).fitted?.vaporizers).toMatchObject([{ tag: "VP-92", agent: "isoflurane" }]);
  });

  it("a tag that is not known, and a label that says another agent, are refused in words and nothing typed is lost", async () => {
    const { roomId } = await roomNamed(day.department, "OR 3");
    const desk = await day.page("mlind", DESK, `/rooms/${roomId}`);
    await desk.getByRole("link", { name: /^Mount 2, empty/ }).click();
    await desk.getByRole("button", { name: "Fit a vaporizer" }).click();
    const dialog = desk.getByRole("dialog", { name: "Fit a vaporizer on mount 2" });
    const tag = dialog.getByLabel("Tag on its label");
    await tag.fill("VP-9X");
    await dialog.getByRole("button", { name: /^Changed: VP-9X on/ }).click();
    await dialog
      .getByText(/There is no vaporizer with the tag VP-9X/)
      .first()
      .waitFor();
    expect(await tag.inputValue()).toBe("VP-9X");
    await tag.fill("VP-91");
    await dialog.getByLabel("Agent on its label").selectOption("isoflurane");
    await dialog.getByRole("button", { name: /^Changed: VP-91 on/ }).click();
    await dialog
      .getByText(/is for sevoflurane, and its label was read as isoflurane/)
      .first()
      .waitFor();
    await expectAccessible(desk);
    expect(await tag.inputValue()).toBe("VP-91");
    await dialog.getByLabel("Agent on its label").selectOption("sevoflurane");
    await dialog.getByRole("button", { name: /^Changed: VP-91 on/ }).click();
    await dialog.getByText("VP-91 is on mount 2").waitFor();
    await dialog.getByRole("button", { name: "Back to OR 3" }).click();
    await desk.getByText("To check", { exact: true }).first().waitFor();
  });

  it("is moved to the other mount and taken off again", async () => {
    const { roomId } = await roomNamed(day.department, "OR 3");
    const phone = await day.page("rosei", PHONE, `/rooms/${roomId}`);
    await openPlace(phone, /^Low pressure/, /^Sevoflurane/);
    await phone.getByRole("button", { name: "Take it off" }).click();
    await phone.getByText("Mount 1 stays empty.").waitFor();
    await expectAccessible(phone);
    await phone.getByRole("button", { name: /^VP-\d+ is off$/ }).click();
    await phone.getByRole("button", { name: "Back to OR 3" }).click();
    await phone.getByRole("button", { name: /^Mount 1 empty/ }).waitFor();
    await phone
      .getByRole("button", { name: /^Sevoflurane/ })
      .filter({ visible: true })
      .click();
    await phone.getByRole("button", { name: "Move it to mount 1" }).click();
    await phone.getByRole("button", { name: "Moved: VP-91 on mount 1" }).click();
    await phone.getByText("VP-91 is on mount 1").waitFor();
    expect((await roomOn(phone, roomId)).fitted?.vaporizers).toMatchObject([{ tag: "VP-91", mount: "1" }]);
  });
});

describe("what else is changed at its place", () => {
  it("the absorbent, the same again, and the oxygen sensor from the store: each with its recheck", async () => {
    const { roomId } = await roomNamed(day.department, "OR 3");
    const phone = await day.page("rosei", PHONE, `/rooms/${roomId}`);
    const job = await countTaps(phone);
    await openPlace(phone, /^Breathing system/, /^Absorbent/);
    await phone.getByRole("button", { name: "Change the absorbent" }).click();
    await phone.getByRole("button", { name: /^Changed: new Calmora violet, AB-\d+ off/ }).click();
    await phone.getByRole("link", { name: "Recheck now" }).waitFor();
    job.tell("absorbent changed, the same again");
    await phone.getByRole("button", { name: "Back to OR 3" }).click();
    await phone
      .getByRole("button", { name: /^Oxygen sensor/ })
      .filter({ visible: true })
      .click();
    await phone.getByRole("button", { name: "Replace the oxygen sensor" }).click();
    await phone.getByText("Another one, by its tag or from a store").click();
    await phone.getByRole("radio", { name: /^OS-91/ }).check();
    await expectAccessible(phone);
    await phone.getByRole("button", { name: /^Changed: OS-91 on/ }).click();
    await phone.getByText("OS-91 is in place").waitFor();
    await phone.getByRole("link", { name: "Recheck now" }).click();
    expect(await recheck(phone)).toEqual(expect.arrayContaining(["breathing-leak", "oxygen-in-air"]));
    expect((await roomOn(phone, roomId)).row.state).toBe("ready");
  });

  it("a cylinder, chosen from the store", async () => {
    const { roomId } = await roomNamed(day.department, "OR 3");
    const phone = await day.page("mlind", PHONE, `/rooms/${roomId}`);
    await openPlace(phone, /^High pressure/, /^Oxygen, yoke 1/);
    await phone.getByRole("button", { name: "Swap this cylinder" }).click();
    await phone.getByText("Empty", { exact: true }).click();
    await phone.getByRole("button", { name: /^OX-90003/ }).click();
    await expectAccessible(phone);
    await phone.getByRole("button", { name: /^Swapped: OX-90003/ }).click();
    await phone.getByText("OX-90003 is on yoke 1").waitFor();
    await phone.getByRole("link", { name: "Recheck now" }).click();
    expect((await recheck(phone)).sort()).toEqual(["cylinder-gauge", "yoke-leak"]);
  });
});
