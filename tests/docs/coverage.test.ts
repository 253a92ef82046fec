import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { ITEM_IDS } from "@/lib/domain/items";
import { RULES } from "@/lib/domain/rules/all";

interface Row {
  readonly list: string;
  readonly number: number;
  readonly items: readonly string[];
  readonly rules: readonly string[];
}

/** The rows of the page's tables, with the list they stand under. */
function rowsOf(page: string): Row[] {
  let list = "";
  return page.split("\n").flatMap((line): Row[] => {
    if (line.startsWith("## ")) list = line.slice(3);
    const cells = line.split("|").map((cell) => cell.trim());
    if (!/^\d+$/.test(cells[1] ?? "")) return [];
    const names = (cell: string | undefined) =>
      (cell ?? "")
        .split(",")
        .map((name) => name.trim())
        .filter((name) => name !== "" && name !== "-");
    return [{ list, number: Number(cells[1]), items: names(cells[3]), rules: names(cells[4]) }];
  });
}

const rows = rowsOf(readFileSync("docs/coverage.md", "utf8"));
const listsOf = (start: string) => rows.filter(({ list }) => list.startsWith(start));
const rulesById = new Map(RULES.map((rule) => [rule.id, rule]));

describe("docs/coverage.md", () => {
  it.each([
    ["US, ASA 2008", 15],
    ["US, FDA 1993", 14],
    ["UK, Association", 20],
  ])("has every item of %s once, in order", (start, count) => {
    expect(listsOf(start).map(({ number }) => number)).toEqual(Array.from({ length: count }, (_, place) => place + 1));
  });

  it.each(rows.map((row) => [`${row.list} ${row.number}`, row] as const))("%s names what there is", (_name, row) => {
    expect(row.rules.length).toBeGreaterThan(0);
    for (const item of row.items) expect(ITEM_IDS, item).toContain(item);
    for (const rule of row.rules) expect([...rulesById.keys()], rule).toContain(rule);
  });

  it("names with each item a rule that judges it", () => {
    for (const { list, number, items, rules } of rows) {
      const judged = rules.flatMap((id) => rulesById.get(id)?.items ?? []);
      for (const item of items) expect(judged, `${list} ${number}: ${item}`).toContain(item);
    }
  });
});
