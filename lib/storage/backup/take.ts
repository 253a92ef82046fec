import { createHash, type Hash } from "node:crypto";
import { createWriteStream } from "node:fs";
import { open, rename, rm } from "node:fs/promises";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { createGzip } from "node:zlib";
import pg from "pg";
import { to as copyTo } from "pg-copy-streams";
import type { Instant } from "@/lib/units/time";
import { timestampOf } from "@/lib/units/time";
import { migrationsOf, type Scope, scopesOf, seeScope, type Table, tablesOf } from "./catalogue";
import { type Beginning, END_OF_ROWS, type Ending, FORMAT, type Root } from "./format";
import { rootOfLeaves } from "./roots";

export interface Taken {
  readonly rows: Readonly<Record<string, number>>;
  readonly roots: readonly Root[];
}

type Tell = (done: number, total: number, what: string) => void;

/**
 * Everything of one moment in one file, while the application goes on: all tables are read in one snapshot.
 * The file appears under its name when it is whole and on the disk, and never half.
 */
export async function takeBackup(ownerUrl: string, file: string, now: Instant, tell: Tell): Promise<Taken> {
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  const aside = `${file}.${process.pid}.part`;
  const taken: { rows: Record<string, number>; roots: Root[] } = { rows: {}, roots: [] };
  try {
    await client.query("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY");
    const text = Readable.from(textOf(client, now, taken, tell), { objectMode: false });
    await pipeline(text, createGzip(), createWriteStream(aside, { mode: 0o600, flags: "wx" }));
    await toDisk(aside);
    await rename(aside, file);
    return taken;
  } finally {
    await rm(aside, { force: true });
    await client.end();
  }
}

async function toDisk(file: string): Promise<void> {
  const handle = await open(file, "r+");
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

type Chunks = AsyncGenerator<Uint8Array, void, undefined>;

async function* textOf(
  client: pg.Client,
  now: Instant,
  taken: { rows: Record<string, number>; roots: Root[] },
  tell: Tell,
): Chunks {
  const hash = createHash("sha256");
  const beginning: Beginning = { format: FORMAT, takenAt: timestampOf(now), migrations: await migrationsOf(client) };
  yield hashed(hash, lineOf(beginning));
  const scopes = await scopesOf(client);
  const tables = await tablesOf(client);
  for (const [place, table] of tables.entries()) {
    tell(place, tables.length, table.name);
    yield hashed(hash, lineOf({ table: table.name, columns: table.columns }));
    let rows = 0;
    for (const scope of readings(table, scopes)) {
      if (scope) await seeScope(client, scope);
      const copy = client.query(copyTo(`COPY ${table.name} (${table.columns.join(", ")}) TO STDOUT`));
      for await (const chunk of copy as AsyncIterable<Uint8Array>) yield hashed(hash, chunk);
      rows += copy.rowCount;
    }
    taken.rows[table.name] = rows;
    yield hashed(hash, Buffer.from(`${END_OF_ROWS}\n`));
  }
  for (const scope of scopes) taken.roots.push(await rootOfLeaves(client, scope));
  const ending: Ending = { ...taken, sha256: hash.digest("hex") };
  yield lineOf(ending);
  tell(tables.length, tables.length, "written");
}

/** Row-level security holds the owner too: what belongs to a facility is read facility by facility. */
function readings({ reach }: Table, scopes: readonly Scope[]): readonly (Scope | null)[] {
  if (reach === "whole") return [null];
  if (reach === "facility") return scopes;
  return [...new Map(scopes.map((scope) => [scope.organisation, scope])).values()];
}

const lineOf = (value: unknown): Uint8Array => Buffer.from(`${JSON.stringify(value)}\n`, "utf8");

function hashed(hash: Hash, chunk: Uint8Array): Uint8Array {
  hash.update(chunk);
  return chunk;
}
