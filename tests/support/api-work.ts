import type { Page } from "playwright-core";
import type { Board, BoardRow } from "@/lib/schemas/board";
import type { CheckItemView, CheckView } from "@/lib/schemas/check";
import { goodAnswer } from "@/tests/support/small-department";

/** What a signed-in page's person does through the API, where doing it by hand once has been shown already. */
let sent = 0;

export async function command<Reply>(page: Page, name: string, data: unknown): Promise<Reply> {
  sent += 1;
  const response = await page.request.post(`/api/v1/commands/${name}`, {
    data,
    headers: { "Idempotency-Key": `api-work-${process.pid}-${Date.now()}-${sent}` },
  });
  if (!response.ok()) throw new Error(`${name}: ${response.status()} ${await response.text()}`);
  return (await response.json()) as Reply;
}

export const view = async <View>(page: Page, path: string): Promise<View> =>
  (await (await page.request.get(path)).json()) as View;

export async function rowOf(page: Page, name: string): Promise<BoardRow> {
  const { rooms } = await view<Board>(page, "/api/v1/board");
  const row = rooms.find((room) => room.name === name);
  if (!row) throw new Error(`no room ${name}`);
  return row;
}

/** The whole check of one workstation, done well and signed. */
export async function checkByApi(page: Page, workstationId: string): Promise<string> {
  const { checkId } = await command<{ checkId: string }>(page, "start-check", { workstationId, kind: "daily" });
  const check = await view<CheckView>(page, `/api/v1/checks/${checkId}`);
  const answers = check.items.map((item: CheckItemView) => ({
    item: item.item,
    subject: item.subject,
    answer: goodAnswer(item),
  }));
  await command(page, "record-answers", { checkId, answers });
  const { version } = await view<CheckView>(page, `/api/v1/checks/${checkId}`);
  await command(page, "sign-check", { checkId, seenVersion: version });
  return checkId;
}
