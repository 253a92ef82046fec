import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Board } from "@/lib/schemas/board";
import { DESK, PHONE, WALL } from "@/tests/support/browser";
import { type BrowserDepartment, browserDepartment } from "@/tests/support/browser-department";
import { expectAccessible } from "@/tests/support/page";
import { checkWhole } from "@/tests/support/room-work";

let place: BrowserDepartment;

beforeAll(async () => {
  place = await browserDepartment("2026-11-24T11:40:00Z", async (department) => {
    const technician = await department.person("Rosa First", ["technician"]);
    await checkWhole(department, "OR 1", technician);
  });
});
afterAll(() => place?.close());

describe("an oxygen pipeline fails in a zone", () => {
  it("is told once, seen on the board with its card, and the room comes back by pressure and identity", async () => {
    const phone = await place.page("rosei", PHONE, "/events");
    const board = await place.page("imarlow", DESK, "/");
    const wall = await place.page("imarlow", WALL, "/wall");
    const stateOf = async () => {
      const { rooms } = (await (await board.request.get("/api/v1/board")).json()) as Board;
      return rooms.find(({ name }) => name === "OR 1")?.state;
    };
    expect(await stateOf()).toBe("ready");
    await expectAccessible(phone);
    await phone.getByLabel("Zone").selectOption({ label: "North wing, level 2, 1 rooms" });
    await phone.getByLabel(/^Pressure in psi/).fill("forty");
    await phone.getByRole("button", { name: "Tell everybody" }).click();
    await phone.getByText(/is no number/).waitFor();
    await phone.getByLabel(/^Pressure in psi/).fill("43");
    await phone.getByRole("button", { name: "Tell everybody" }).click();
    await phone.getByRole("heading", { name: "Oxygen pipeline low, 43 psi: North wing, level 2" }).waitFor();
    await phone.getByText(/^Open the reserve oxygen cylinder/).waitFor();
    await expectAccessible(phone);

    const line = board.getByRole("region", { name: "Open events" });
    await line.getByText("Oxygen pipeline low, 43 psi: North wing, level 2").waitFor();
    expect(await stateOf()).toBe("do-not-use");
    await expectAccessible(board);
    const onWall = wall.locator("[data-wall=event]");
    await onWall.getByText("Oxygen pipeline low, 43 psi: North wing, level 2").waitFor();
    await expectAccessible(wall);

    await phone.getByLabel("OR 1: pressure in psi").fill("51");
    await phone.getByRole("button", { name: "Sign and return to service" }).click();
    await phone.getByText("OR 1: give the pressure as a number, and the gas identity.").waitFor();
    await phone.getByRole("group", { name: "OR 1: gas identity" }).getByText("Right gas").click();
    await phone.getByRole("button", { name: "Sign and return to service" }).click();
    await phone
      .getByText(/^Ended/)
      .first()
      .waitFor();
    await line.waitFor({ state: "detached" });
    await onWall.waitFor({ state: "detached" });
    expect(await stateOf()).toBe("ready");
  });
});

describe("what if, allowed, and earlier", () => {
  it("a supposed failure is marked, drawn and not written", async () => {
    const page = await place.page("imarlow", DESK, "/what-if");
    await page.getByRole("button", { name: "Suppose it" }).first().click();
    await page.getByText("Supposed: Oxygen pipeline fails now").waitFor();
    await page.getByRole("heading", { name: "How long each room's reserve lasts" }).waitFor();
    await expectAccessible(page);
    const { rooms } = (await (await page.request.get("/api/v1/board")).json()) as Board;
    expect(rooms.find(({ name }) => name === "OR 1")?.state).toBe("ready");
  });

  it("what is allowed stands in one view", async () => {
    const page = await place.page("imarlow", PHONE, "/allowed");
    await page.getByRole("heading", { name: "Allowed with a limit" }).waitFor();
    await expectAccessible(page);
  });

  it("the morning is gone through by keyboard, and is marked as the past", async () => {
    const page = await place.page("imarlow", DESK, "/moments");
    const slider = page.getByRole("slider", { name: "Time of day" });
    await slider.focus();
    await page.keyboard.press("End");
    const last = await slider.getAttribute("aria-valuetext");
    await page.keyboard.press("Home");
    expect(await slider.getAttribute("aria-valuetext")).toBe("03:00");
    await page.keyboard.press("PageUp");
    expect(await slider.getAttribute("aria-valuetext")).toBe("03:30");
    await page.keyboard.press("ArrowRight");
    expect(await slider.getAttribute("aria-valuetext")).toBe("03:35");
    expect(last).not.toBe("03:35");
    await page.getByText(/^The past: Tuesday 24 November, 03:35/).waitFor();
    await expectAccessible(page);
    await page.keyboard.press("End");
    await page.getByRole("link", { name: "OR 1" }).click();
    await page.getByRole("heading", { name: "OR 1, as it was" }).waitFor();
    await page.getByText("The log and the evidence of that moment say the same.").waitFor();
    await expectAccessible(page);
  });
});
