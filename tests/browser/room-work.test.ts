import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { startCase } from "@/lib/commands/occupancy";
import type { RoomView } from "@/lib/schemas/room";
import { answerItem, checkOn } from "@/tests/support/answering";
import { DESK, PHONE } from "@/tests/support/browser";
import { type BrowserDepartment, browserDepartment } from "@/tests/support/browser-department";
import { addRooms } from "@/tests/support/many-rooms";
import { expectAccessible } from "@/tests/support/page";
import { answerRest, beginCheck, checkWhole, roomNamed } from "@/tests/support/room-work";
import { goodAnswer } from "@/tests/support/small-department";
import { countTaps } from "@/tests/support/taps";

const NARROW = { viewport: { width: 320, height: 640 }, hasTouch: true };

let morning: BrowserDepartment;
beforeAll(async () => {
  morning = await browserDepartment("2026-11-24T12:10:00Z", async (department) => {
    await addRooms(department, 12);
    const technician = await department.person("Noor Halabi", ["technician"]);
    const provider = await department.person("June Whitlow", ["provider"]);
    for (const room of ["OR 2", "OR 3"]) await checkWhole(department, room, technician);
    await department.must(startCase, { roomId: (await roomNamed(department, "OR 3")).roomId }, provider);
    await beginCheck(department, "OR 6", technician);
    // The one that stood in the small department's only room; its model has a self-test of none.
    const begun = await beginCheck(department, "OR 5", technician);
    await answerRest(department, begun.id, technician);
  });
});
afterAll(() => morning?.close());

const roomOn = async (page: Page, name: string): Promise<RoomView> => {
  const { roomId } = await roomNamed(morning.department, name);
  return (await (await page.request.get(`/api/v1/rooms/${roomId}`)).json()) as RoomView;
};
const pathOf = async (name: string): Promise<string> => `/rooms/${(await roomNamed(morning.department, name)).roomId}`;

describe("a fault in words", () => {
  it("stops the room when the reporter would not use it, and nothing is preset", async () => {
    const phone = await morning.page("kbrandt", PHONE, await pathOf("OR 2"));
    const job = await countTaps(phone);
    await phone.getByRole("button", { name: "Report a fault" }).click();
    const dialog = phone.getByRole("dialog", { name: "Report a fault of WS-2" });
    await dialog.getByLabel("What is wrong?").fill("Screen goes dark for a second");
    await dialog.getByRole("button", { name: "Report it" }).click();
    await dialog.getByText("Choose one: it decides whether the room stops.").waitFor();
    await expectAccessible(phone);
    await dialog.getByText("No, I would not use it").click();
    await dialog.getByRole("button", { name: "Report it: do not use" }).click();
    await dialog.waitFor({ state: "hidden" });
    await phone.getByText("Do not use", { exact: true }).first().waitFor();
    job.tell("a fault reported that stops the room");
    await expectAccessible(phone);
  });

  it("is looked at by a technician, with what was found; the room is ready again", async () => {
    const phone = await morning.page("rosei", NARROW, await pathOf("OR 2"));
    const job = await countTaps(phone);
    await phone.getByText("would not use it", { exact: true }).waitFor();
    await expectAccessible(phone);
    await phone.getByRole("button", { name: "Looked at it …" }).click();
    await phone.getByLabel("What did you find, and what did you do?").fill("Plug was loose, seated");
    await phone.getByRole("button", { name: "Looked at: it may be used" }).click();
    await phone.getByText("Ready", { exact: true }).waitFor();
    job.tell("a fault looked at");
    expect((await roomOn(phone, "OR 2")).faults).toEqual([]);
  });
});

describe("a case that cannot wait", () => {
  it("starts in a room that may not, with the reason, only for providers; its state stays", async () => {
    const technician = await morning.page("rosei", PHONE, await pathOf("OR 4"));
    await technician.getByText("More", { exact: true }).click();
    expect(await technician.getByRole("button", { name: "Use in an emergency" }).count()).toBe(0);

    const phone = await morning.page("kbrandt", PHONE, await pathOf("OR 4"));
    const job = await countTaps(phone);
    expect(await phone.getByRole("button", { name: "Use in an emergency" }).isVisible()).toBe(false);
    await phone.getByText("More", { exact: true }).click();
    await phone.getByRole("button", { name: "Use in an emergency" }).click();
    await phone.getByText("The whole check is owed when the case has ended.").waitFor();
    await expectAccessible(phone);
    await phone.getByLabel("Why now, and why here?").fill("Bleeding, no other room");
    await phone.getByRole("button", { name: "Start the case as an emergency" }).click();
    await phone.getByText(/In use since/).waitFor();
    job.tell("emergency use");
    expect((await roomOn(phone, "OR 4")).row).toMatchObject({ state: "to-check", occupancy: { state: "in-use" } });
  });

  it("a change of provider is confirmed in one tap, or said not to be", async () => {
    const first = await morning.page("kbrandt", PHONE, await pathOf("OR 3"));
    const job = await countTaps(first);
    await first.getByText("Taking over? This is what was found:").waitFor();
    await expectAccessible(first);
    await first.getByRole("button", { name: "I take over, and I looked" }).click();
    await first.getByText("Karl Brandt: confirmed").waitFor();
    job.tell("change of provider confirmed");
    expect(job.taps()).toBe(1);
    const second = await morning.page("imarlow", DESK, await pathOf("OR 3"));
    await second.getByRole("button", { name: "I take over, could not look" }).click();
    await second.getByText("Ines Marlow: could not look").waitFor();
    expect((await roomOn(second, "OR 3")).providerChanges.map(({ confirmed }) => confirmed)).toEqual([false, true]);
  });
});

describe("a check on the way", () => {
  it("begins with the number on the workstation; another number is told where it is on record", async () => {
    const phone = await morning.page("mlind", PHONE, await pathOf("HV 1"));
    const job = await countTaps(phone);
    const { row } = await roomOn(phone, "HV 1");
    await phone.getByRole("button", { name: "Start machine check" }).click();
    const dialog = phone.getByRole("dialog", { name: "Which number is on the workstation?" });
    await dialog.getByRole("button", { name: "Another number" }).click();
    await dialog.getByLabel("Number on its label").fill("ws12");
    await dialog.getByText("WS-12 is on record in Procedure 1").waitFor();
    await expectAccessible(phone);
    await dialog.getByRole("button", { name: "Close" }).click();
    await phone.getByRole("button", { name: "Start machine check" }).click();
    const before = job.taps();
    await dialog.getByRole("button", { name: row.workstation?.tag ?? "", exact: true }).click();
    await phone.waitForURL(/\/checks\//);
    expect(job.taps() - before).toBe(1);
    await phone.getByRole("heading", { level: 1, name: /^HV 1/ }).waitFor();
  });

  it("somebody else's is taken over with a tap for the reason; my other ones stand in a strip", async () => {
    const phone = await morning.page("mlind", PHONE, await pathOf("OR 6"));
    const job = await countTaps(phone);
    await phone.getByRole("link", { name: "Go on with the machine check" }).click();
    await phone.getByText("Noor Halabi is on this check").waitFor();
    await expectAccessible(phone);
    await phone.getByRole("button", { name: "Take it over" }).click();
    await phone.getByRole("button", { name: "Called away" }).click();
    await phone.getByRole("button", { name: "Take over this check" }).click();
    await phone.getByText("Noor Halabi is on this check").waitFor({ state: "detached" });
    job.tell("a check taken over");
    await phone
      .getByRole("navigation", { name: "My other open checks" })
      .getByRole("link", { name: /^HV 1 0 of/ })
      .click();
    await phone.getByRole("heading", { level: 1, name: /^HV 1/ }).waitFor();
    const [item] = (await checkOn(phone)).items;
    if (!item) throw new Error("the check asks nothing");
    await answerItem(phone, item, goodAnswer(item));
    await expect.poll(async () => (await checkOn(phone)).recorded.length).toBe(1);
    await expectAccessible(phone);
  });

  it("of the wrong workstation moves to the right one with what was seen, and waits for a signature there", async () => {
    const { checks } = await roomOn(await morning.page("rosei", DESK, "/"), "OR 5");
    const desk = await morning.page("rosei", DESK, `/checks/${checks[0]?.id}`);
    await desk.getByRole("button", { name: "Not WS-5?" }).click();
    const dialog = desk.getByRole("dialog", { name: "This check is not of WS-5" });
    await dialog.getByLabel("Number on its label").fill("ws-7");
    await dialog.getByRole("radio", { name: /^WS-7/, checked: true }).waitFor();
    await dialog.getByRole("button", { name: "Opened the wrong one" }).click();
    await expectAccessible(desk);
    await dialog.getByRole("button", { name: "Move the answers to WS-7" }).click();
    await desk.getByText(/\d+ answers are now of WS-7/).waitFor();
    await expectAccessible(desk);
    await desk.getByRole("link", { name: "Go on with WS-7" }).click();
    await desk.getByRole("heading", { level: 1, name: /^DS 1|^HV|^OR 7/ }).waitFor();
    expect((await checkOn(desk)).recorded.length).toBeGreaterThan(10);
    expect((await roomOn(desk, "OR 5")).row.state).toBe("to-check");
  });
});
