import { spawnSync } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import os from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

/** Imports that the gate must refuse: where, what. */
const REFUSED: readonly (readonly [file: string, imported: string])[] = [
  ["lib/units/a.ts", "@/lib/calculations/leak-rate"],
  ["lib/units/a.ts", "node:fs"],
  ["lib/units/a.ts", "zod"],
  ["lib/calculations/a.ts", "@/lib/domain/finding"],
  ["lib/calculations/a.ts", "zod"],
  ["lib/domain/a.ts", "@/lib/schemas/check"],
  ["lib/domain/a.ts", "@/lib/storage/client"],
  ["lib/domain/a.ts", "node:crypto"],
  ["lib/domain/a.ts", "@prisma/client"],
  ["lib/domain/noun/a.ts", "../finding"],
  ["lib/domain/noun/a.ts", "../../storage/client"],
  ["lib/schemas/a.ts", "@/lib/storage/client"],
  ["lib/storage/a.ts", "@/lib/auth/actor"],
  ["lib/storage/a.ts", "@/lib/commands/execute"],
  ["lib/auth/a.ts", "@/lib/commands/execute"],
  ["lib/auth/a.ts", "@/app/_edge/serve"],
  ["lib/commands/a.ts", "@/lib/queries/board"],
  ["lib/commands/a.ts", "@/lib/live/hub"],
  ["lib/commands/a.ts", "pg"],
  ["lib/queries/a.ts", "@/lib/commands/execute"],
  ["lib/jobs/a.ts", "@/lib/live/hub"],
  ["lib/exchange/a.ts", "@/lib/jobs/sweep"],
  ["lib/live/a.ts", "@/lib/cli/server"],
  ["lib/cli/a.ts", "@/app/page"],
  ["app/page.tsx", "@/lib/storage/client"],
  ["app/rooms/page.tsx", "../../lib/storage/client"],
  ["app/page.tsx", "@/lib/cli/server"],
  ["app/page.tsx", "@prisma/client"],
  ["app/_ui/a.tsx", "@/lib/queries/board"],
  ["app/_ui/a.tsx", "@/lib/auth/actor"],
  ["app/rooms/a.client.tsx", "@/lib/storage/client"],
  ["app/rooms/a.client.tsx", "@/lib/commands/execute"],
  ["app/rooms/a.client.tsx", "@/lib/jobs/sweep"],
  ["app/_live/a.client.ts", "@/lib/queries/board"],
];

/** Imports that the gate must let through, or it would bite everybody. */
const ALLOWED: readonly (readonly [file: string, imported: string])[] = [
  ["lib/units/b.ts", "./quantity"],
  ["lib/calculations/b.ts", "@/lib/units/pressure"],
  ["lib/domain/b.ts", "@/lib/calculations/leak-rate"],
  ["lib/domain/noun/b.ts", "@/lib/domain/finding"],
  ["lib/schemas/b.ts", "zod"],
  ["lib/storage/b.ts", "@/lib/schemas/check"],
  ["lib/storage/b.ts", "pg"],
  ["lib/auth/b.ts", "@/lib/storage/client"],
  ["lib/commands/b.ts", "@/lib/auth/actor"],
  ["lib/queries/b.ts", "@/lib/storage/client"],
  ["lib/jobs/b.ts", "@/lib/commands/execute"],
  ["lib/exchange/b.ts", "@/lib/queries/board"],
  ["lib/live/b.ts", "@/lib/queries/board"],
  ["lib/cli/b.ts", "@/lib/live/clock"],
  ["app/b.tsx", "@/lib/queries/board"],
  ["app/rooms/b.client.tsx", "@/lib/schemas/check"],
  ["app/_ui/b.tsx", "react"],
];

let tree: string;

/** What Biome says about a tree of planted files under the project's own settings: "file: rule". */
function complaints(files: Record<string, string>): Set<string> {
  for (const [file, text] of Object.entries(files)) {
    mkdirSync(path.dirname(path.join(tree, file)), { recursive: true });
    writeFileSync(path.join(tree, file), text);
  }
  const biome = createRequire(import.meta.url).resolve("@biomejs/biome/bin/biome");
  const run = spawnSync(
    process.execPath,
    [biome, "lint", "--reporter=json", "--max-diagnostics=none", ...Object.keys(files)],
    {
      cwd: tree,
      encoding: "utf8",
    },
  );
  const { diagnostics } = JSON.parse(run.stdout) as {
    diagnostics: { category: string; location: { path: string | { file: string } } }[];
  };
  const pathOf = (at: string | { file: string }) => (typeof at === "string" ? at : at.file);
  return new Set(
    diagnostics.map(({ category, location }) => `${pathOf(location.path)}: ${category.split("/").at(-1)}`),
  );
}

/** One file for each planted import, numbered, so that the answers can be told apart. */
function plant(imports: typeof REFUSED): { files: Record<string, string>; names: string[] } {
  const names = imports.map(([file], index) => file.replace(/^(.*\/)(\w+)/, `$1planted-${index}-$2`));
  const texts = imports.map(([, imported]) => `import { thing } from "${imported}";\nthing();\n`);
  return { names, files: Object.fromEntries(names.map((name, index) => [name, texts[index] ?? ""])) };
}

beforeAll(() => {
  tree = mkdtempSync(path.join(os.tmpdir(), "yokeboard-arrows-"));
  for (const file of ["biome.json", ".gitignore"]) copyFileSync(file, path.join(tree, file));
});

afterAll(() => {
  rmSync(tree, { recursive: true, force: true });
});

describe("the arrows between layers", () => {
  it("are kept: every planted import against them is refused", () => {
    const { files, names } = plant(REFUSED);
    const said = complaints(files);
    const missed = names.flatMap((name, index) => (said.has(`${name}: noRestrictedImports`) ? [] : [REFUSED[index]]));
    expect(missed).toEqual([]);
  });

  it("do not refuse what they allow", () => {
    const { files, names } = plant(ALLOWED);
    const said = complaints(files);
    const refused = names.flatMap((name, index) => (said.has(`${name}: noRestrictedImports`) ? [ALLOWED[index]] : []));
    expect(refused).toEqual([]);
  });

  it("go round in no circle", () => {
    const said = complaints({
      "lib/units/circle-one.ts": 'import { two } from "./circle-two";\nexport const one = () => two();\n',
      "lib/units/circle-two.ts": 'import { one } from "./circle-one";\nexport const two = (): number => one();\n',
    });
    expect([...said]).toContain("lib/units/circle-one.ts: noImportCycles");
  });

  it("are not the only thing looked at: any, long functions and barrels are refused too", () => {
    const long = Array.from({ length: 80 }, (_, line) => `  total += ${line};`).join("\n");
    const said = complaints({
      "lib/units/any.ts": "export const anything: any = 1;\n",
      "lib/units/long.ts": `export function long(): number {\n  let total = 0;\n${long}\n  return total;\n}\n`,
      "lib/units/all.ts": 'export * from "./any";\nexport * from "./long";\n',
    });
    expect([...said]).toEqual(
      expect.arrayContaining([
        "lib/units/any.ts: noExplicitAny",
        "lib/units/long.ts: noExcessiveLinesPerFunction",
        "lib/units/all.ts: noBarrelFile",
      ]),
    );
  });
});
