import { readdirSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";

/** Every layer there is. A new one needs a decision record, and its arrows in biome.json. */
const LAYERS = [
  "auth",
  "calculations",
  "cli",
  "commands",
  "domain",
  "exchange",
  "jobs",
  "live",
  "queries",
  "schemas",
  "storage",
  "units",
];

const foldersIn = (place: string) =>
  readdirSync(place, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .sort();

const filesIn = (place: string) =>
  readdirSync(place, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(place, path.join(entry.parentPath, entry.name)));

const sourceFiles = () =>
  ["app", "lib", "seed", "tests"]
    .flatMap((place) => filesIn(place).map((file) => path.join(place, file)))
    .filter((file) => /\.tsx?$/.test(file) && !file.startsWith("lib/storage/generated/"));

describe("the tree states the layers", () => {
  it("has no folder in lib but the agreed ones", () => {
    expect(LAYERS).toEqual(expect.arrayContaining(foldersIn("lib")));
  });

  it("keeps a noun of the domain in model.ts and decide.ts", () => {
    const nouns = foldersIn("lib/domain").filter((name) => name !== "rules" && name !== "ready-made-procedures");
    const others = nouns.flatMap((noun) =>
      filesIn(`lib/domain/${noun}`)
        .filter((file) => file !== "model.ts" && file !== "decide.ts")
        .map((file) => `${noun}/${file}`),
    );
    expect(nouns.length).toBeGreaterThan(0);
    expect(others).toEqual([]);
  });

  it("keeps each rule in a folder of its subject", () => {
    const rules = filesIn("lib/domain/rules").filter((file) => file.includes("/"));
    expect(rules.length).toBeGreaterThan(0);
    expect(rules.filter((file) => !/^[a-z0-9-]+\/[a-z0-9-]+\.ts$/.test(file))).toEqual([]);
  });

  it("has no barrel: a file is imported by its own name", () => {
    const barrels = sourceFiles().filter((file) => /(^|\/)index\.tsx?$/.test(file));
    expect(barrels.filter((file) => file !== "seed/index.ts")).toEqual([]);
  });

  it("writes every file and folder in lower case with hyphens", () => {
    const odd = sourceFiles().filter((file) => !/^[a-z0-9_.()[\]/-]+$/.test(file));
    expect(odd).toEqual([]);
  });
});
