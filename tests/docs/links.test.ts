import { existsSync, readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";

const pages = [
  "README.md",
  "DEVELOPERS.md",
  "CHANGELOG.md",
  ...readdirSync("docs", { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".md"))
    .map((file) => path.join("docs", file)),
];

/** Links to files of the repository; those to the web are not followed. */
const linksOf = (page: string) =>
  [...readFileSync(page, "utf8").matchAll(/\]\(([^)#\s]+)(?:#[^)]*)?\)/g)]
    .flatMap(([, target]) => target ?? [])
    .filter((target) => !/^[a-z]+:/.test(target));

describe("the written pages", () => {
  it.each(pages)("%s links only to what is there", (page) => {
    const missing = linksOf(page).filter((target) => !existsSync(path.join(path.dirname(page), target)));
    expect(missing).toEqual([]);
  });

  it("are linked at all", () => {
    expect(linksOf("README.md").length).toBeGreaterThan(5);
  });

  it("list every decision", () => {
    const records = readdirSync("docs/decisions").filter((file) => /^\d{3}-/.test(file));
    expect(linksOf("docs/decisions/README.md").sort()).toEqual(records.sort());
  });

  it("name only code that is there", () => {
    const named = pages.flatMap((page) =>
      [
        ...readFileSync(page, "utf8").matchAll(
          /`((?:lib|app|tests|prisma|docs)\/[\w./()[\]-]+\.(?:tsx?|sql|css|md))`/g,
        ),
      ].flatMap(([, file]) => (file && !existsSync(file) ? [`${page}: ${file}`] : [])),
    );
    expect(named).toEqual([]);
  });
});
