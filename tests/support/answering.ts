import type { Locator, Page } from "playwright-core";
import type { Answer } from "@/lib/domain/answer";
import type { CheckItemView, CheckView } from "@/lib/schemas/check";

/** Answers one item by the controls a person uses, inside `place` (the whole page, or one item's section). */
export async function answerOn(place: Page | Locator, item: CheckItemView, answer: Answer): Promise<void> {
  switch (answer.kind) {
    case "pass":
      if (item.form.kind === "pass")
        await place.getByRole("button", { name: answer.passed ? item.form.yes : item.form.no, exact: true }).click();
      return;
    case "choice": {
      const option =
        item.form.kind === "choice" ? item.form.options.find(({ value }) => value === answer.choice) : undefined;
      await place.getByRole("button", { name: option?.label ?? "", exact: true }).click();
      return;
    }
    case "gauge":
      await typeReading(place, item, answer.reading.value);
      await yesOrNo(place, "Valve open when read?", answer.openWhenRead);
      await yesOrNo(place, "Shut again?", answer.shutAgain);
      return;
    case "number":
      await typeReading(place, item, answer.reading.value);
      return;
    case "timed":
      await place.getByText("Timed with a watch: enter the seconds").click();
      await place.getByLabel(`${item.title}, seconds, in s`).fill(String(answer.seconds));
      await place
        .getByRole("group", { name: "Did it hold?" })
        .getByRole("button", { name: answer.held ? "Held" : "Gave way" })
        .click();
  }
}

/** Figure by figure on our own pad, as a thumb does. */
async function typeReading(place: Page | Locator, item: CheckItemView, value: number): Promise<void> {
  const pad = place.getByRole("group", { name: "Number pad" });
  const keys: Readonly<Record<string, string>> = { ".": "Decimal point" };
  for (const figure of String(value))
    await pad.getByRole("button", { name: keys[figure] ?? figure, exact: true }).click();
  await place.getByLabel(`${item.title}, in`).waitFor();
}

const yesOrNo = (place: Page | Locator, question: string, yes: boolean): Promise<void> =>
  place
    .getByRole("group", { name: question })
    .getByRole("button", { name: yes ? "Yes" : "No", exact: true })
    .click();

/** What the server has of the check that is open on this page. */
export async function checkOn(page: Page): Promise<CheckView> {
  const id = new URL(page.url()).pathname.split("/").at(-1);
  const response = await page.request.get(`/api/v1/checks/${id}`);
  return (await response.json()) as CheckView;
}

/** Forms whose last tap is the answer; the others wait for Record or Next. */
const COMPLETES_ITSELF: ReadonlySet<Answer["kind"]> = new Set(["pass", "choice", "gauge"]);

/** Answers the item that is up on the check's page and goes on to the next. After a failing answer the page stays for a note. */
export async function answerItem(page: Page, item: CheckItemView, answer: Answer, failing = false): Promise<void> {
  await page.getByRole("heading", { level: 2, name: item.title, exact: true }).waitFor();
  await answerOn(page, item, answer);
  if (failing) await page.getByText("What did you see?").waitFor();
  if (failing || !COMPLETES_ITSELF.has(answer.kind)) await page.getByRole("button", { name: /^(Record|Next)/ }).click();
}
