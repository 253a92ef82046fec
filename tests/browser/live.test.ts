import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import { DESK } from "@/tests/support/browser";
import { type BrowserDepartment, browserDepartment } from "@/tests/support/browser-department";
import { expectAccessible } from "@/tests/support/page";

let morning: BrowserDepartment;
beforeAll(async () => {
  morning = await browserDepartment();
});
afterAll(() => morning?.close());

const TABS = 8;

describe("open boards", () => {
  it("eight tabs of one browser share one stream: none hangs, and all of them turn", async () => {
    const { context, page } = await morning.come("imarlow", DESK);
    const tabs = [page];
    while (tabs.length < TABS) {
      const tab = await context.newPage();
      await tab.goto("/");
      tabs.push(tab);
    }
    for (const tab of tabs)
      await tab
        .getByText(/\blive \d\d:\d\d/)
        .first()
        .waitFor();
    const { department } = morning;
    const board = await (await page.request.get("/api/v1/board")).json();
    const workstationId = board.rooms.find((room: { name: string }) => room.name === "OR 1").workstation.id;
    const technician = await department.person("Ida Holt", ["technician"]);
    const { holdId } = await department.must(holdWorkstation, { workstationId, reason: "smells of agent" }, technician);
    for (const tab of tabs)
      await tab
        .getByText(/Held.*smells of agent/)
        .first()
        .waitFor();
    await department.must(liftHold, { workstationId, holdId, reason: "filler was open, shut" }, technician);
    for (const tab of tabs)
      await tab
        .getByText(/Held.*smells of agent/)
        .first()
        .waitFor({ state: "detached" });
    await expectAccessible(page);
  });

  it("not live is said within thirty seconds, the states are withdrawn, and they come back with the server", async () => {
    const board = await morning.page("imarlow", DESK);
    await board
      .getByText(/\blive \d\d:\d\d/)
      .first()
      .waitFor();
    await morning.server.killHard();
    const from = Date.now();
    await board
      .getByText(/Not live since/)
      .first()
      .waitFor({ timeout: 30_000 });
    expect(Date.now() - from).toBeLessThanOrEqual(30_000);
    expect(await board.getByText(/last known/i).count()).toBeGreaterThan(0);
    await expectAccessible(board);
    await morning.server.restart();
    await board
      .getByText(/Not live since/)
      .first()
      .waitFor({ state: "detached", timeout: 40_000 });
  });
});
