import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { DESK, PHONE } from "@/tests/support/browser";
import { type BrowserDepartment, browserDepartment } from "@/tests/support/browser-department";
import { type WebPeer, webPeer } from "@/tests/support/message-peers";
import { expectAccessible } from "@/tests/support/page";

let place: BrowserDepartment;
let pager: WebPeer;

beforeAll(async () => {
  pager = await webPeer();
  place = await browserDepartment("2026-11-24T11:40:00Z", undefined, [], { YOKEBOARD_WEBHOOK_HOSTS: pager.host });
});
afterAll(async () => {
  await place?.close();
  await pager?.close();
});

describe("work that will not be done in time", () => {
  it("is put to one person in a few taps; their pager gets it, they answer, and everybody sees that", async () => {
    const charge = await place.page("imarlow", DESK, "/messages");
    await charge.getByText("Nobody has asked you to see to anything.").waitFor();
    await charge.getByLabel("Webhook address").fill("pager");
    await charge.getByRole("button", { name: "Add webhook" }).click();
    await charge.getByText(/must be an address such as https/).waitFor();
    await charge.getByLabel("Webhook address").fill(`${pager.url}/charge`);
    await charge.getByRole("button", { name: "Add webhook" }).click();
    await charge.getByRole("button", { name: `Remove ${pager.host}` }).waitFor();
    await expectAccessible(charge);
    await charge.goto("/");

    const phone = await place.page("rosei", PHONE, "/tasks");
    await phone
      .getByRole("button", { name: /^More: OR 1/ })
      .first()
      .click();
    await phone.getByRole("button", { name: "Ask somebody to see to it" }).click();
    await phone.getByRole("button", { name: "Ask", exact: true }).click();
    await phone.getByText("Choose one person.").waitFor();
    await phone.getByLabel("Who is asked?").selectOption({ label: "Ines Marlow" });
    await phone.getByText("It will not be done in time").click();
    await expectAccessible(phone);
    await phone.getByRole("button", { name: "Ask", exact: true }).click();
    await phone.getByText("Ines Marlow is asked").waitFor();
    await phone.getByRole("dialog").getByRole("button", { name: "To do" }).click();
    await phone.getByText(/Ines Marlow was asked at .*, no answer so far/).waitFor();

    await expect.poll(() => pager.received.length, { timeout: 20_000 }).toBe(1);
    expect(JSON.parse(pager.received[0]?.body.toString() ?? "{}")).toMatchObject({ kind: "escalation" });

    await charge.getByRole("link", { name: /^You are asked: .*It will not be done in time/ }).click();
    await charge.getByText("1 request waits for your answer").waitFor();
    await expectAccessible(charge);
    await charge.getByRole("button", { name: "I have it" }).click();
    await charge.getByText(/You have it, since/).waitFor();
    await phone.getByText(/Ines Marlow was asked at .*, has it since/).waitFor();
  });

  it("fits into 320 px, and says why this device takes no push messages where it cannot", async () => {
    const phone = await place.page("rosei", { viewport: { width: 320, height: 640 } }, "/messages");
    await phone.getByRole("heading", { name: "How you are reached" }).waitFor();
    await phone.getByText(/No push on this device|Push on this device/).waitFor();
    await expectAccessible(phone);
  });
});
