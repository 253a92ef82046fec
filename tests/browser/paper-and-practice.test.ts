import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Board } from "@/lib/schemas/board";
import type { RehearsalView } from "@/lib/schemas/rehearsal";
import { answerOn } from "@/tests/support/answering";
import { PHONE } from "@/tests/support/browser";
import { type BrowserDepartment, browserDepartment } from "@/tests/support/browser-department";
import { expectAccessible } from "@/tests/support/page";
import { paperTime } from "@/tests/support/paper-time";
import { goodAnswer } from "@/tests/support/small-department";

let place: BrowserDepartment;
beforeAll(async () => {
  place = await browserDepartment();
});
afterAll(() => place?.close());

describe("a rehearsal on a phone", () => {
  it("shows what is seen only when it is done, and says at the end what was missed", async () => {
    const page = await place.page("rosei", PHONE, "/rehearsal");
    await page.getByLabel("Planted faults").selectOption("3");
    await page.getByLabel("Number of the imagined workstation").fill("twelve");
    await page.getByRole("button", { name: "Begin" }).click();
    await page.getByText(/“twelve” is not a workstation’s number/).waitFor();
    await page.getByLabel("Number of the imagined workstation").fill("12");
    await expectAccessible(page);
    await page.getByRole("button", { name: "Begin" }).click();
    await page.waitForURL(/seed=12&faults=3/);
    const { questions } = (await (
      await page.request.get("/api/v1/rehearsal?seed=12&faults=3")
    ).json()) as RehearsalView;
    for (const [order, question] of questions.entries()) {
      await page.getByRole("heading", { level: 2, name: question.title }).waitFor();
      for (const { act, see } of question.signs) {
        expect(await page.getByText(see, { exact: true }).count()).toBe(0);
        await page.getByRole("button", { name: act, exact: true }).click();
        await page.getByText(see, { exact: true }).waitFor();
      }
      if (order === 0) await expectAccessible(page);
      await answerOn(page, question, goodAnswer(question));
      if (!["pass", "choice", "gauge"].includes(question.form.kind))
        await page.getByRole("button", { name: "Go on" }).click();
    }
    await page.getByRole("heading", { name: `${questions.length} of ${questions.length} items answered` }).waitFor();
    await page.getByRole("button", { name: "Show what was planted" }).click();
    await page.getByRole("heading", { name: "0 of 3 planted faults found" }).waitFor();
    expect(await page.getByText("Missed", { exact: true }).count()).toBe(3);
    await page.getByText("March and Crowley 1991, Anesthesiology (abstract)").first().waitFor();
    await expectAccessible(page);
  });
});

describe("a morning on paper", () => {
  it("goes to the printer by itself, and what was done is entered afterwards with who did it and when", async () => {
    const { page, context } = await place.come("rosei", PHONE, "/downtime");
    await context.addInitScript(() => {
      window.print = () => document.body.setAttribute("data-printed", "");
    });
    await page.getByRole("link", { name: "Print the morning" }).click();
    await page.getByRole("region", { name: "Check sheet of OR 1" }).waitFor();
    await page.reload();
    await page.locator("body[data-printed]").waitFor();
    await expectAccessible(page);
    const pdf = await page.request.get("/api/v1/downtime");
    expect(pdf.headers()["content-type"]).toBe("application/pdf");
    expect((await pdf.body()).subarray(0, 5).toString()).toBe("%PDF-");

    const { rooms } = (await (await page.request.get("/api/v1/board")).json()) as Board;
    const workstation = rooms.find(({ name }) => name === "OR 1")?.workstation;
    await page.goto("/downtime/enter");
    await page.getByLabel("Number on its label").fill(workstation?.tag ?? "");
    await page.getByRole("button", { name: "Go on" }).click();
    await page.waitForURL(/workstation=/);
    const { on, from, to } = paperTime(place.department, 40, 20);
    await page.getByLabel("Done by", { exact: true }).selectOption({ label: "Karl Brandt (kbrandt)" });
    await page.getByLabel("Date", { exact: true }).fill(on);
    await page.getByLabel("From", { exact: true }).fill(from);
    await page.getByLabel("To", { exact: true }).fill("23:59");
    const bag = page.getByRole("region", { name: "Find the self-inflating bag and squeeze it" });
    await bag.getByRole("button", { name: "There and works" }).click();
    await page.getByRole("button", { name: /^Enter 1 of \d+ answers$/ }).click();
    await page
      .getByText(/23:59 has not come yet|more than 12 hours/)
      .first()
      .waitFor();
    await expectAccessible(page);
    await page.getByLabel("To", { exact: true }).fill(to);
    await page.getByRole("button", { name: /^Enter 1 of \d+ answers$/ }).click();
    await page.getByText("Karl Brandt signs it; its passing answers count from then on.").waitFor();
    await page.goto("/downtime");
    await page.getByRole("link", { name: "owed by Karl Brandt" }).waitFor();
    await page.getByRole("cell", { name: /, Rosa Osei$/ }).waitFor();
    await expectAccessible(page);
  });
});
