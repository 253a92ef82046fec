import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { answerLine } from "@/lib/exchange/calculator/answer-line";
import { CALCULATIONS } from "@/lib/exchange/calculator/registry";

const PAGE = readFileSync("docs/calculations.md", "utf8");
const EXAMPLES = [...PAGE.matchAll(/```jsonl\n(.*?)```/gs)].flatMap(([, block = ""]) => block.trim().split("\n"));

describe("docs/calculations.md", () => {
  it.each(EXAMPLES)("gives an example that is answered: %s", (line) => {
    const answer = JSON.parse(answerLine(line) ?? "null");
    expect(answer).toMatchObject({ ok: true, id: JSON.parse(line).id, calculation: JSON.parse(line).calculation });
    expect(answer.method).not.toBe("");
    expect(answer.source).not.toBe("");
  });

  it("has examples of most calculations, and names every one of them", () => {
    expect(new Set(EXAMPLES.map((line) => JSON.parse(line).calculation)).size).toBeGreaterThan(15);
    expect(CALCULATIONS.map(({ name }) => name).filter((name) => !PAGE.includes(name))).toEqual([]);
  });
});
