import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { importDuty } from "@/lib/commands/duty";
import type { Board } from "@/lib/schemas/board";
import type { RoomView } from "@/lib/schemas/room";
import type { TaskList } from "@/lib/schemas/task";
import { answerItem, checkOn } from "@/tests/support/answering";
import { checkByApi, command, rowOf, view } from "@/tests/support/api-work";
import { DESK, PHONE } from "@/tests/support/browser";
import { type BrowserDepartment, browserDepartment } from "@/tests/support/browser-department";
import { addRooms } from "@/tests/support/many-rooms";
import { expectAccessible } from "@/tests/support/page";
import { goodAnswer } from "@/tests/support/small-department";
import { countTaps } from "@/tests/support/taps";

const ROOMS = 24;
const MAIN = "Main theatre floor";
const ROSTER = [
  "date,user id,role,from,to",
  "today,rosei,technician,05:00,13:30",
  "today,mlind,technician,05:00,13:30",
  "today,imarlow,charge provider,05:00,17:00",
].join("\n");

/** A Tuesday, 05:30 in Chicago: 24 rooms that nobody has looked at yet. */
let dawn: BrowserDepartment;
beforeAll(async () => {
  dawn = await browserDepartment("2026-11-24T11:30:00Z", async (department) => {
    await addRooms(department, ROOMS);
    await department.must(importDuty, { csv: ROSTER }, department.admin);
  });
});
afterAll(() => dawn?.close());

const tasksOf = async (page: Page) => (await view<TaskList>(page, "/api/v1/tasks")).tasks;

/** The workstations whose check somebody of that name has taken, in walking order. */
const walkOf = async (page: Page, name: string): Promise<string[]> =>
  (await tasksOf(page))
    .filter(({ kind, claim }) => kind === "check" && claim?.name === name)
    .sort((left, right) => left.walkingOrder - right.walkingOrder)
    .map(({ workstation }) => workstation?.id ?? "");

/** The groups of the list as somebody reads them, with the rooms in each. */
const walkShown = (page: Page) =>
  page
    .locator("section")
    .filter({ has: page.locator("ol article") })
    .evaluateAll((sections) =>
      sections.map((section) => ({
        title: section.querySelector("h2")?.textContent?.split(" ").slice(0, 3).join(" ") ?? "",
        rooms: [...section.querySelectorAll("article h3 span")].map((room) => room.textContent ?? ""),
      })),
    );

describe("24 rooms at dawn, by two technicians", () => {
  let rosa: Page;
  let mika: Page;

  it("stand suite by suite along the walk, one task a room, with the reason for its place", async () => {
    rosa = await dawn.page("rosei", PHONE, "/tasks");
    await rosa.getByText(`${ROOMS} rooms to check`).waitFor();
    await expectAccessible(rosa);
    await rosa.getByRole("link", { name: "Along the walk" }).click();
    await rosa.getByRole("heading", { level: 2, name: new RegExp(`^${MAIN}`) }).waitFor();
    const groups = await walkShown(rosa);
    expect(groups.slice(0, 4).map(({ rooms }) => rooms.length)).toEqual([12, 4, 6, 2]);
    expect(groups[0]?.rooms).toEqual(Array.from({ length: 12 }, (_, index) => `OR ${index + 1}`));
    expect(await rosa.getByText(/It may wait \d+ min|Every minute more/).count()).toBeGreaterThanOrEqual(ROOMS);
    await expectAccessible(rosa);
  });

  it("are shared out: each takes whole suites in a few taps, and sees what the other has", async () => {
    rosa = await dawn.page("rosei", PHONE, "/tasks?order=walk");
    const job = await countTaps(rosa);
    await rosa.getByRole("button", { name: "Choose several" }).click();
    await rosa.getByRole("button", { name: `All of ${MAIN}` }).click();
    await rosa.getByText("12 tasks chosen").waitFor();
    await expectAccessible(rosa);
    await rosa.getByRole("button", { name: "Claim all" }).click();
    await rosa.getByRole("heading", { name: /^You are on it/ }).waitFor();
    job.tell("12 rooms taken for one walk");
    expect(job.taps()).toBeLessThanOrEqual(3);

    mika = await dawn.page("mlind", PHONE, "/tasks?order=walk");
    await mika
      .getByText(/Rosa Osei, since/)
      .first()
      .waitFor();
    await mika.getByRole("button", { name: "Choose several" }).click();
    for (const suite of ["Heart and vascular", "Day surgery", "Procedure rooms"])
      await mika.getByRole("button", { name: `All of ${suite}` }).click();
    await mika.getByRole("button", { name: "Pick list" }).click();
    await mika.getByRole("heading", { level: 1, name: "Pick list" }).waitFor();
    await mika.getByText("Nothing: for these tasks looking is the work.").waitFor();
    await expectAccessible(mika);
    await mika.getByRole("button", { name: "Claim all" }).click();
    await mika.waitForURL(/whose=mine/);
    expect((await walkOf(mika, "Mika Lind")).length).toBe(12);
  });

  it("a task is paused with its reason, handed over to somebody on duty, and taken over, by tapping alone", async () => {
    rosa = await dawn.page("rosei", PHONE, "/tasks");
    const job = await countTaps(rosa);
    await rosa.getByRole("button", { name: /^More: OR 12 / }).click();
    await rosa.getByRole("dialog").getByRole("button", { name: "Pause" }).click();
    await rosa.getByRole("dialog").getByRole("button", { name: "Pause, it stays mine" }).click();
    await rosa.getByText("Say why: whoever comes next reads it.").waitFor();
    await expectAccessible(rosa);
    await rosa.getByText("Called to another room").click();
    await rosa.getByRole("dialog").getByRole("button", { name: "Pause, it stays mine" }).click();
    await rosa.getByText(/You paused, since .*: Called to another room/).waitFor();
    await rosa.getByRole("button", { name: /^More: OR 12 / }).click();
    await rosa.getByRole("dialog").getByRole("button", { name: "Hand over" }).click();
    await rosa.getByText(/Mika Lind, until 13:30/).click();
    await rosa.getByRole("dialog").getByRole("button", { name: "Hand over" }).click();
    const theirs = rosa.getByRole("region", { name: /^Others are on it/ });
    await theirs.getByRole("button", { name: /^More: OR 12 / }).waitFor();
    job.tell("a task paused and handed over");
    await rosa.getByRole("button", { name: /^More: OR 12 / }).click();
    await rosa.getByRole("dialog").getByRole("button", { name: "Take over" }).click();
    await rosa.getByText("Agreed with them").click();
    await rosa.getByRole("button", { name: "Take over from Mika Lind" }).click();
    await expect.poll(async () => (await walkOf(rosa, "Rosa Osei")).length).toBe(12);
  });

  it("one room is checked on the phone from the list to the signature; then the rounds go on to the end", async () => {
    rosa = await dawn.page("rosei", PHONE, "/tasks");
    const job = await countTaps(rosa);
    await rosa.getByRole("button", { name: "Start check OR 1", exact: true }).click();
    await rosa.getByRole("dialog").getByRole("button", { name: "AW-01" }).click();
    await rosa.waitForURL(/\/checks\//);
    for (const item of (await checkOn(rosa)).items) await answerItem(rosa, item, goodAnswer(item));
    await rosa.getByRole("button", { name: /^Sign as performed/ }).click();
    await rosa.getByText("Signed: performed").waitFor();
    job.tell("one room checked and signed");
    for (const [page, name] of [
      [rosa, "Rosa Osei"],
      [mika, "Mika Lind"],
    ] as const)
      for (const workstationId of await walkOf(page, name)) await checkByApi(page, workstationId);
    expect((await tasksOf(rosa)).filter(({ kind, room }) => kind === "check" && room !== null)).toEqual([]);
    await rosa.goto("/tasks");
    await rosa.getByRole("heading", { level: 1, name: "To do" }).waitFor();
    await expectAccessible(rosa);
  });

  it("the provider confirms in one tap; with all confirmed every room is ready with both marks", async () => {
    const { roomId } = await rowOf(rosa, "OR 1");
    const karl = await dawn.page("kbrandt", PHONE, `/rooms/${roomId}`);
    const job = await countTaps(karl);
    await karl.getByRole("button", { name: /confirm/i }).click();
    await expect.poll(async () => (await rowOf(karl, "OR 1")).marks.provider?.name).toBe("Karl Brandt");
    job.tell("the provider’s own check");
    const { rooms } = await view<Board>(karl, "/api/v1/board");
    for (const row of rooms.filter(({ marks }) => marks.provider === null)) {
      const { confirmable } = await view<RoomView>(karl, `/api/v1/rooms/${row.roomId}`);
      expect(confirmable, row.name).not.toBeNull();
      await command(karl, "confirm-check", { checkId: confirmable?.checkId, seenVersion: confirmable?.version });
    }
    const after = await view<Board>(karl, "/api/v1/board");
    expect(
      after.rooms.filter(({ state, marks }) => state === "ready" && marks.equipment && marks.provider).length,
    ).toBe(ROOMS);
  });

  it("the roster and the shift sheet say who is there, on a desk", async () => {
    const ines = await dawn.page("imarlow", DESK, "/tasks/duty");
    await ines.getByText("technician, 05:00 to 13:30").first().waitFor();
    await ines.getByText(/nobody 00:00 to 05:00, 13:30 to 24:00/).waitFor();
    await expectAccessible(ines);
    await ines.getByRole("button", { name: "Change Rosa Osei" }).click();
    await ines.getByLabel("To", { exact: true }).fill("14:30");
    await expectAccessible(ines);
    await ines.getByRole("button", { name: "Save" }).click();
    await ines.getByText("technician, 05:00 to 14:30").waitFor();
    await ines.goto("/reports/shift");
    await ines.getByText(/Rosa Osei until 14:30/).waitFor();
    await expectAccessible(ines);
  });
});
