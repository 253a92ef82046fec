import { createHash } from "node:crypto";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { gunzipSync, gzipSync } from "node:zlib";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { scopesOf, tablesOf } from "@/lib/storage/backup/catalogue";
import { restoreBackup } from "@/lib/storage/backup/restore";
import { rootOfLeaves } from "@/lib/storage/backup/roots";
import { type Taken, takeBackup } from "@/lib/storage/backup/take";
import { migrate, migrationNames } from "@/lib/storage/migrate";
import { instant } from "@/lib/units/time";
import { connectTo } from "@/tests/support/cluster-address";
import { createBareDatabase, createTestDatabase, type TestDatabase } from "@/tests/support/database";
import { SEED_NOW } from "@/tests/support/seeded-template";

const quiet = () => undefined;
const folder = mkdtempSync(path.join(os.tmpdir(), "yokeboard-backup-"));
const file = path.join(folder, "whole.backup");

let source: TestDatabase;
let taken: Taken;
const made: TestDatabase[] = [];

async function asking<Result>(url: string, work: (client: pg.Client) => Promise<Result>): Promise<Result> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
}

/** Past row-level security: what is really in a database. */
const asSuperuser = <Result>(database: TestDatabase, work: (client: pg.Client) => Promise<Result>) =>
  asking(connectTo(inject("testCluster").superuserUrl, database.name), work);

async function bare(): Promise<TestDatabase> {
  const database = await createBareDatabase();
  made.push(database);
  return database;
}

const APPEND = "SELECT sequence FROM history.append_leaf($1, $2, $3)";
const entry = (number: number) => JSON.stringify({ number, text: "line\nend, back\\slash, tab\t, é, \u2028" });

beforeAll(async () => {
  source = await createTestDatabase({ seededDays: 2 });
  made.push(source);
  // Somebody goes on working while the backup is taken.
  const scopes = await asking(source.ownerUrl, scopesOf);
  let goesOn = true;
  const working = asking(source.ownerUrl, async (client) => {
    for (let number = 0; goesOn; number += 1)
      for (const { facility, organisation } of scopes) {
        await client.query("BEGIN");
        await client.query("SELECT set_config('app.organisation', $1, true), set_config('app.facility', $2, true)", [
          organisation,
          facility,
        ]);
        await client.query(APPEND, [facility, new Date(SEED_NOW + number), entry(number)]);
        await client.query("COMMIT");
      }
  });
  taken = await takeBackup(source.ownerUrl, file, instant(SEED_NOW), quiet);
  goesOn = false;
  await working;
});
afterAll(async () => {
  for (const database of made) await database.drop();
  rmSync(folder, { recursive: true, force: true });
});

/** A digest of a table's rows, whatever their order. */
async function digests(database: TestDatabase): Promise<Record<string, string>> {
  return asSuperuser(database, async (client) => {
    const found: Record<string, string> = {};
    for (const { name } of await tablesOf(client)) {
      const { rows } = await client.query<{ digest: string }>(
        `SELECT count(*) || ':' || coalesce(md5(string_agg(t::text, chr(10) ORDER BY t::text COLLATE "C")), '') AS digest FROM ${name} t`,
      );
      found[name] = rows[0]?.digest ?? "";
    }
    return found;
  });
}

const rootsIn = (database: TestDatabase) =>
  asking(database.ownerUrl, async (client) => {
    await client.query("BEGIN");
    const roots = [];
    for (const scope of await scopesOf(client)) roots.push(await rootOfLeaves(client, scope));
    return roots;
  });

describe("a backup taken while somebody works", () => {
  it("comes back as it was: every table row for row, every record with its root", async () => {
    const target = await bare();
    const { applied } = await restoreBackup(target.ownerUrl, file, quiet);
    expect(applied).toEqual([]);
    expect(await rootsIn(target)).toEqual(taken.roots);
    expect(Math.max(...taken.roots.map(({ size }) => size))).toBeGreaterThan(100);
    const [then, now] = [await digests(target), await digests(source)];
    // What was written during the backup is in the record alone.
    const differ = Object.keys(now).filter((name) => now[name] !== then[name]);
    expect(differ.filter((name) => !name.startsWith("history."))).toEqual([]);
    for (const [name, rows] of Object.entries(taken.rows)) expect(then[name]?.split(":")[0], name).toBe(String(rows));
    expect(Object.keys(taken.rows)).toContain("public.person_secret");
    expect(Object.keys(taken.rows)).not.toContain("public.session");
  });

  it("goes on from there: the next entry takes the next place, and row-level security holds again", async () => {
    const target = await bare();
    await restoreBackup(target.ownerUrl, file, quiet);
    const [root] = taken.roots;
    const next = await asking(target.ownerUrl, (client) =>
      client.query(APPEND, [root?.facility, new Date(SEED_NOW), entry(0)]).catch(async () => {
        const [scope] = await scopesOf(client);
        await client.query("SELECT set_config('app.facility', $1, false)", [scope?.facility]);
        return client.query(APPEND, [scope?.facility, new Date(SEED_NOW), entry(0)]);
      }),
    );
    expect(Number(next.rows[0].sequence)).toBe(root?.size);
    const unscoped = await asking(target.appUrl, (client) => client.query("SELECT FROM public.room"));
    expect(unscoped.rowCount).toBe(0);
  });

  it("leaves no half file behind when it cannot be finished", async () => {
    await expect(
      takeBackup(
        source.ownerUrl.replace(source.name, "no_such_database"),
        path.join(folder, "none"),
        instant(0),
        quiet,
      ),
    ).rejects.toThrow(/no_such_database/);
    expect(existsSync(path.join(folder, "none"))).toBe(false);
  });
});

/** The file with its text changed, and its digest made to fit again where that is asked. */
function changed(name: string, change: (text: string) => string, fitDigest = false): string {
  const text = change(gunzipSync(readFileSync(file)).toString("utf8"));
  const cut = text.lastIndexOf("\n", text.length - 2) + 1;
  const body = text.slice(0, cut);
  const digest = createHash("sha256").update(body).digest("hex");
  const last = fitDigest ? text.slice(cut).replace(/"sha256":"[0-9a-f]+"/, `"sha256":"${digest}"`) : text.slice(cut);
  const to = path.join(folder, name);
  writeFileSync(to, gzipSync(body + last));
  return to;
}

describe("a wrong file is refused, and the database stays empty", () => {
  it.each([
    ["is not there", () => path.join(folder, "nowhere"), /There is no file/],
    ["is cut", () => cutFile(), /was cut off/],
    ["is something else", () => plain("text.backup", "hello"), /is no backup of Yokeboard/],
    ["is gzip of something else", () => plain("gzip.backup", gzipSync("hello\n")), /is no backup of Yokeboard/],
    ["lost its last line", () => changed("last", (text) => text.slice(0, text.lastIndexOf('{"rows"'))), /was cut off/],
    ["has one letter changed", () => changed("letter", (text) => text.replace("Noor Halabi", "Noor Halaby")), /digest/],
    [
      "lost a row, its digest made to fit",
      () => changed("row", (text) => text.replace(/(\{"table":"public.room"[^\n]*\n)[^\n]*\n/, "$1"), true),
      /public\.room has \d+ rows in the file, and \d+ on its last line/,
    ],
    [
      "has an entry of the record changed, its digest made to fit",
      () => changed("entry", (text) => text.replace(/Noor Halabi([^\n]*sequence)/, "Nora Halabi$1"), true),
      /The record of facility .* does not fit/,
    ],
    [
      "is of a newer program",
      () =>
        changed(
          "newer",
          (text) => text.replace('"migrations":["0001_first_morning"', '"migrations":["0001_first_evening"'),
          true,
        ),
      /newer program.*0001_first_evening/,
    ],
  ])("one that %s", async (_name, make, problem) => {
    const target = await bare();
    await expect(restoreBackup(target.ownerUrl, make(), quiet)).rejects.toThrow(problem);
    const left = await asSuperuser(target, (client) =>
      client.query("SELECT tablename FROM pg_tables WHERE schemaname NOT IN ('pg_catalog', 'information_schema')"),
    );
    expect(left.rows).toEqual([]);
  });

  it("and so is a database that is not empty", async () => {
    await expect(restoreBackup(source.ownerUrl, file, quiet)).rejects.toThrow(
      /already has tables .* nothing was changed/,
    );
  });
});

function plain(name: string, text: string | Uint8Array): string {
  const to = path.join(folder, name);
  writeFileSync(to, text);
  return to;
}

function cutFile(): string {
  const bytes = readFileSync(file);
  return plain("cut.backup", bytes.subarray(0, Math.floor(bytes.length * 0.7)));
}

const ORGANISATION = "00000000-0000-4000-8000-0000000000aa";

describe("a database of an earlier version", () => {
  const names = migrationNames();
  it.each(names.map((name, place) => [name, place] as const))(
    "of %s is brought up, its record unchanged",
    async (_name, place) => {
      const target = await bare();
      const facility = "00000000-0000-4000-8000-000000000001";
      await migrate(target.ownerUrl, { only: names.slice(0, place + 1) });
      await asking(target.ownerUrl, async (client) => {
        await client.query("INSERT INTO public.organisation (id, name) VALUES ($1, 'Old House')", [ORGANISATION]);
        await client.query("SELECT set_config('app.organisation', $1, false)", [ORGANISATION]);
        await client.query("SELECT public.found_facility($1, 'Old House', 'America/Chicago', 'US', 'psi', $2)", [
          facility,
          new Date(SEED_NOW),
        ]);
        await client.query("SELECT set_config('app.facility', $1, false)", [facility]);
        for (let number = 0; number < 5; number += 1)
          await client.query(APPEND, [facility, new Date(SEED_NOW), entry(number)]);
      });
      const before = await rootsIn(target);
      expect(before.map(({ size }) => size)).toEqual([5]);
      expect((await migrate(target.ownerUrl)).applied).toEqual(names.slice(place + 1));
      expect(await rootsIn(target)).toEqual(before);
    },
  );
});
