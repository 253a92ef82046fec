import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { workstationPath } from "@/app/_parts/scan/scanned";
import { reportFault } from "@/lib/commands/fault";
import type { Answer } from "@/lib/domain/answer";
import type { CheckItemView } from "@/lib/schemas/check";
import { checkOn } from "@/tests/support/answering";
import { rowOf } from "@/tests/support/api-work";
import { DESK, PHONE } from "@/tests/support/browser";
import { type BrowserDepartment, browserDepartment } from "@/tests/support/browser-department";
import { cameraShowing, filmCode } from "@/tests/support/camera";
import { addRooms } from "@/tests/support/many-rooms";
import { expectAccessible } from "@/tests/support/page";
import { checkWhole, workstationIn } from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";
import { countTaps } from "@/tests/support/taps";

const FAULT = "The screen goes dark for a second when the table is moved";

let todo: BrowserDepartment;
let folder: string;

/** 05:40 in Chicago: three of twelve rooms are checked, each with something found; the camera sees the code of OR 5's workstation. */
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), "yokeboard-camera-"));
  const film = path.join(folder, "label.mjpeg");
  const prepare = async (department: SmallDepartment) => {
    await addRooms(department, 12);
    const technician = await department.person("Tove Aker", ["technician"]);
    const found = (item: CheckItemView["item"], answer: Answer) => (question: CheckItemView) =>
      question.item === item ? answer : goodAnswer(question);
    await checkWhole(
      department,
      "OR 2",
      technician,
      found("absorbent-colour", { kind: "choice", choice: "two-thirds" }),
    );
    await checkWhole(department, "OR 3", technician);
    const workstationId = await workstationIn(department, "OR 3");
    await department.must(reportFault, { workstationId, text: FAULT, wouldNotUse: true }, technician);
    const low = { kind: "gauge", reading: { value: 600, unit: "psi" }, openWhenRead: true, shutAgain: true } as const;
    await checkWhole(department, "OR 4", technician, found("cylinder-gauge", low));
    const labelled = await workstationIn(department, "OR 5");
    await filmCode(film, `https://board.example${workstationPath(labelled)}`);
  };
  todo = await browserDepartment("2026-11-24T11:40:00Z", prepare, cameraShowing(film));
});
afterAll(async () => {
  await todo?.close();
  await rm(folder, { recursive: true, force: true });
});

const cardOf = (page: Page, place: string, title = "") =>
  page.getByRole("article").filter({ has: page.getByRole("heading", { name: new RegExp(`^${place} ${title}`) }) });
const placeWithFocus = (page: Page) =>
  page.evaluate(() => document.activeElement?.closest("article")?.querySelector("h3 span")?.textContent ?? null);
const isShown = (page: Page, text: string | RegExp) => page.getByText(text).first().isVisible();

describe("the list, by keyboard", () => {
  it("the arrows go from task to task, C claims and M opens what else there is", async () => {
    const page = await todo.page("rosei", DESK, "/tasks?order=walk");
    await cardOf(page, "OR 1")
      .getByRole("button", { name: /^Start check/ })
      .focus();
    await page.keyboard.press("ArrowDown");
    expect(await placeWithFocus(page)).toBe("OR 2");
    await page.keyboard.press("ArrowUp");
    expect(await placeWithFocus(page)).toBe("OR 1");
    await page.keyboard.press("m");
    await page.getByRole("dialog").getByRole("button", { name: "I cannot do it" }).waitFor();
    await page.keyboard.press("Escape");
    await cardOf(page, "OR 6")
      .getByRole("button", { name: /^Start check/ })
      .focus();
    await page.keyboard.press("c");
    await page
      .getByRole("region", { name: /^You are on it/ })
      .getByRole("heading", { name: /^OR 6/ })
      .waitFor();
    await expectAccessible(page);
  });

  it("prints as a list of work, without what can only be tapped", async () => {
    const page = await todo.page("rosei", DESK, "/tasks?order=walk");
    await cardOf(page, "OR 1").waitFor();
    await page.emulateMedia({ media: "print" });
    expect(await isShown(page, "Choose several")).toBe(false);
    expect(
      await page
        .getByRole("button", { name: /^(Start check|Claim|More)/ })
        .filter({ visible: true })
        .count(),
    ).toBe(0);
    expect(await cardOf(page, "OR 1").isVisible()).toBe(true);
  });
});

describe("work that cannot be done", () => {
  it("goes back to the list with its reason, in a few taps, and everybody reads it", async () => {
    const page = await todo.page("rosei", PHONE, "/tasks");
    const job = await countTaps(page);
    await page.getByRole("button", { name: /^More: OR 4 Swap/ }).click();
    await page.getByRole("dialog").getByRole("button", { name: "I cannot do it" }).click();
    await page.getByText("The part is not in stock").click();
    await expectAccessible(page);
    await page.getByRole("button", { name: "Pass it on" }).click();
    await page.getByText("It is back in the list").waitFor();
    await page.getByRole("dialog").getByRole("button", { name: "To do" }).click();
    job.tell("a task passed on with its reason");
    expect(job.taps()).toBeLessThanOrEqual(6);
    await cardOf(page, "OR 4", "Swap")
      .getByText(/Rosa Osei could not, .*: The part is not in stock/)
      .waitFor();
  });
});

describe("several tasks as one walk", () => {
  it("have a pick list that can be carried on paper", async () => {
    const page = await todo.page("mlind", PHONE, "/tasks");
    await page.getByRole("button", { name: "Choose several" }).click();
    for (const task of [/^Choose OR 4 Swap/, /^Choose OR 2 Fit a new charge/]) await page.getByLabel(task).check();
    await page.getByRole("button", { name: "Pick list" }).click();
    await page.getByRole("heading", { level: 1, name: "Pick list" }).waitFor();
    await page.getByText(/1 × .*[Oo]xygen/).waitFor();
    expect(await page.getByRole("heading", { level: 3 }).allTextContents()).toEqual(["OR 2", "OR 4"]);
    await expectAccessible(page);
    await page.emulateMedia({ media: "print" });
    expect(await page.getByRole("button", { name: "Claim all" }).isVisible()).toBe(false);
    expect(await isShown(page, /1 × .*[Oo]xygen/)).toBe(true);
  });
});

describe("who is on duty", () => {
  const roster = (role: string) =>
    ["date,user id,role,from,to", `today,rosei,${role},05:00,13:30`, "today,imarlow,charge provider,05:30,17:00"].join(
      "\n",
    );
  const file = (text: string) => ({ name: "roster.csv", mimeType: "text/csv", buffer: Buffer.from(text) });

  it("comes from a file: a wrong one is told by line and column and changes nothing, a right one is there at once", async () => {
    const page = await todo.page("imarlow", DESK, "/tasks/duty");
    await page.getByText(/no roster was entered for today/).waitFor();
    const job = await countTaps(page);
    await page.getByRole("button", { name: "Import a roster" }).click();
    await page.getByLabel("File").setInputFiles(file(roster("provider")));
    await page.getByRole("button", { name: "Import", exact: true }).click();
    await page.getByText(/line 2, role: Rosa Osei is not a provider here/).waitFor();
    await expectAccessible(page);
    await page.getByLabel("File").setInputFiles(file(roster("technician")));
    await page.getByRole("button", { name: "Import", exact: true }).click();
    await page.getByText("The roster is imported").waitFor();
    await page.getByRole("button", { name: "To the roster" }).click();
    job.tell("a duty roster imported at the second try");
    await page.getByText(/technician Rosa Osei until 13:30/i).waitFor();
    await expectAccessible(page);
  });
});

describe("a check from the list", () => {
  it("begins with the number on the workstation; the camera reads it, and another one’s code begins nothing", async () => {
    const page = await todo.page("mlind", PHONE, "/tasks");
    const asked: string[] = [];
    page.context().on("request", (request) => asked.push(request.url()));
    await page.getByRole("button", { name: "Start check DS 1", exact: true }).click();
    await page.getByRole("dialog").getByRole("button", { name: "Scan its code" }).click();
    await page.getByText(/WS-5 is on record in OR 5, WS-\d+ in DS 1/).waitFor();
    await expectAccessible(page);
    expect(new URL(page.url()).pathname).toBe("/tasks");
    await page.keyboard.press("Escape");
    const job = await countTaps(page);
    await page.getByRole("button", { name: "Start check OR 5", exact: true }).click();
    await page.getByRole("dialog").getByRole("button", { name: "Scan its code" }).click();
    await page.waitForURL(/\/checks\//);
    job.tell("a check begun by scanning the workstation");
    expect(job.taps()).toBe(2);
    await page.getByRole("heading", { name: /OR 5/ }).first().waitFor();
    // What reads the codes comes from this server, and from nowhere else.
    expect(asked.filter((url) => !url.startsWith(todo.server.url))).toEqual([]);
    expect(asked.some((url) => url.includes(".wasm"))).toBe(true);
  });

  it("says why where there is no camera to be had, and the number is typed instead", async () => {
    const { page, context } = await todo.come("mlind", PHONE, "/tasks");
    await context.addInitScript(() => {
      navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException("no", "NotAllowedError"));
    });
    await page.reload();
    await page.getByRole("button", { name: "Start check OR 1", exact: true }).click();
    await page.getByRole("dialog").getByRole("button", { name: "Scan its code" }).click();
    await page.getByText("The camera was not allowed").waitFor();
    await expectAccessible(page);
    await page.getByRole("dialog").getByRole("button", { name: "Type the number" }).click();
    await page.getByLabel("Number on its label").fill("aw 01");
    await page.getByRole("button", { name: "Check AW-01" }).click();
    await page.waitForURL(/\/checks\//);
  });

  it("leaves the hands free while the self-test runs: it is said in the list since when", async () => {
    const page = await todo.page("rosei", PHONE, "/tasks");
    await page.getByRole("button", { name: "Start check AW-02", exact: true }).click();
    await page.getByRole("dialog").getByRole("button", { name: "AW-02" }).click();
    await page.waitForURL(/\/checks\//);
    const { items } = await checkOn(page);
    for (const { title, item } of items) {
      await page.getByRole("heading", { level: 2, name: title, exact: true }).waitFor();
      if (item === "self-test") break;
      await page.getByRole("button", { name: /^(Later|Next)/ }).click();
    }
    await page.getByRole("button", { name: "Self-test started: go on meanwhile" }).click();
    await expectAccessible(page);
    await page.goto("/tasks");
    const open = page.getByRole("region", { name: "Open with you" });
    await open.getByText(/Self-test running since 05:\d\d/).waitFor();
    await open.getByRole("link", { name: /^Go on/ }).click();
    await page.waitForURL(/\/checks\//);
  });
});

describe("a task opens what clears it", () => {
  it("a reported fault is looked at in place", async () => {
    const page = await todo.page("rosei", PHONE, "/tasks");
    const job = await countTaps(page);
    await cardOf(page, "OR 3").getByRole("link", { name: /^Open/ }).click();
    await page.getByText(`“${FAULT}”`).waitFor();
    await expectAccessible(page);
    await page
      .getByLabel("What did you find, and what did you do?")
      .fill("A loose plug, pushed home; watched for ten minutes");
    await page.getByRole("button", { name: "Looked at: it may be used" }).click();
    await page.getByRole("heading", { name: "Looked at" }).waitFor();
    job.tell("a reported fault looked at");
    expect((await rowOf(page, "OR 3")).state).toBe("ready");
  });

  it("spent absorbent asks for a new charge, and leads on to what that owes", async () => {
    const page = await todo.page("rosei", PHONE, "/tasks");
    const job = await countTaps(page);
    await cardOf(page, "OR 2", "Fit a new charge").getByRole("link", { name: /^Open/ }).click();
    await page.getByRole("button", { name: /^Changed: new / }).click();
    await page.getByRole("heading", { name: "New charge fitted" }).waitFor();
    await expectAccessible(page);
    job.tell("a new charge of absorbent fitted");
    expect(job.taps()).toBe(2);
    await page.getByRole("link", { name: "Recheck now" }).click();
    await page.getByRole("button", { name: /^Sign as performed/ }).waitFor();
    expect((await rowOf(page, "OR 2")).state).toBe("to-check");
  });
});
