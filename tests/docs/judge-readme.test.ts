import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { ITEM_IDS } from "@/lib/domain/items";
import { judgeDocument } from "@/lib/exchange/judge/judge-document";
import { evidenceDocument } from "@/lib/schemas/evidence";
import { explainedJudgement } from "@/lib/schemas/judgement";
import { written } from "./judge-examples";

const PAGE = readFileSync("docs/judge/README.md", "utf8");
const BLOCK = /```json\n(.*?)```/gs;
const [document] = [...PAGE.matchAll(BLOCK)].map(([, text = ""]) => JSON.parse(text) as unknown);

it("the short document of docs/judge/README.md comes to the answer that stands there", async () => {
  const judged = judgeDocument(document, { why: false });
  if (!judged.ok) expect.fail(JSON.stringify(judged.problems));
  const answer = `\`\`\`json\n${written(judged.body)}\n\`\`\``;
  let block = 0;
  const page = PAGE.replace(BLOCK, (found) => {
    block += 1;
    return block === 2 ? answer : found;
  });
  await expect(page).toMatchFileSnapshot("../../docs/judge/README.md");
});

it("the page names every field of the document and of the answer, and nothing that is none", () => {
  const room = evidenceDocument.shape.room.unwrap();
  const workstation = evidenceDocument.shape.workstation.unwrap();
  const fields = [evidenceDocument, room, workstation, explainedJudgement].flatMap(({ shape }) => Object.keys(shape));
  const tables = PAGE.slice(PAGE.indexOf("## The document"));
  expect(
    fields.filter(
      (field) => !["id", "name", "tag", "suite"].includes(field) && !new RegExp(`\\b${field}\\b`).test(tables),
    ),
  ).toEqual([]);
});

it("what may be left out means what the page says", () => {
  const { observations, procedure, ...bare } = evidenceDocument.parse(document);
  expect(bare).toMatchObject({ settingsVersion: 0, events: [], trends: [] });
  expect(bare.room).toMatchObject({ zone: null, list: { end: null, setUpMinutes: 0 } });
  expect(bare.workstation).toMatchObject({ holds: [], sequestered: false, allowed: [], firstUserCheckOwedSince: null });
  expect(observations[0]).toMatchObject({
    verdict: "noted",
    makersVerdict: null,
    known: { source: "server" },
    supersedes: null,
  });
  expect(procedure?.owes.every(({ item }) => (ITEM_IDS as readonly string[]).includes(item))).toBe(true);
});
