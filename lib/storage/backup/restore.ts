import { pipeline } from "node:stream/promises";
import pg from "pg";
import { from as copyFrom } from "pg-copy-streams";
import { migrate, migrationNames } from "@/lib/storage/migrate";
import { scopesOf, tablesOf } from "./catalogue";
import type { Contents } from "./read";
import { BadBackup, checkBackup, tablesIn } from "./read";
import { rootOfLeaves } from "./roots";

type Tell = (done: number, total: number, what: string) => void;

/** A database that is not empty, or a program too old for the file. */
export class CannotRestore extends Error {}

export interface Restored extends Contents {
  /** Migrations that came after the backup was taken, and were made on what it held. */
  readonly applied: readonly string[];
}

/**
 * Puts a backup into an empty database: the tables as they were when it was taken, all rows in one transaction, the record's roots
 * computed anew from its entries and compared with those of the backup, and only then what the program has added since.
 */
export async function restoreBackup(ownerUrl: string, file: string, tell: Tell): Promise<Restored> {
  const contents = await checkBackup(file);
  requireKnown(contents.beginning.migrations);
  await requireEmpty(ownerUrl);
  await migrate(ownerUrl, { only: contents.beginning.migrations });
  await fill(ownerUrl, file, contents, tell).catch(async (error: unknown) => {
    // The database was empty before, so everything in it is from this restore.
    await asOwner(ownerUrl, (client) => client.query("DROP OWNED BY CURRENT_USER CASCADE"));
    throw error;
  });
  const { applied } = await migrate(ownerUrl);
  await asOwner(ownerUrl, (client) => client.query("ANALYZE"));
  return { ...contents, applied };
}

/** The file's migrations must be the first ones of ours: a newer program's tables are not known here. */
function requireKnown(migrations: readonly string[]): void {
  const known = migrationNames();
  const strange = migrations.find((name, place) => known[place] !== name);
  if (strange !== undefined)
    throw new CannotRestore(
      `The backup was taken by a newer program, or another one: it has the migration ${strange}. Restore it with the program that took it.`,
    );
}

async function requireEmpty(ownerUrl: string): Promise<void> {
  const { rows } = await asOwner(ownerUrl, (client) =>
    client.query<{ name: string }>(
      `SELECT format('%I.%I', schemaname, tablename) AS name FROM pg_tables
       WHERE schemaname NOT IN ('pg_catalog', 'information_schema') ORDER BY 1 LIMIT 1`,
    ),
  );
  const [table] = rows;
  if (table)
    throw new CannotRestore(
      `The database already has tables (${table.name}). A backup goes into an empty database only; nothing was changed.`,
    );
}

async function fill(ownerUrl: string, file: string, { ending }: Contents, tell: Tell): Promise<void> {
  await asOwner(ownerUrl, async (client) => {
    await client.query("BEGIN");
    const known = new Map((await tablesOf(client)).map((table) => [table.name, table]));
    const total = Object.keys(ending.rows).length;
    let done = 0;
    for await (const { table, columns, rows } of tablesIn(file)) {
      if (!known.has(table)) throw new BadBackup(`The file has a table ${table} that its migrations do not make.`);
      tell(done, total, table);
      done += 1;
      await client.query(`ALTER TABLE ${table} NO FORCE ROW LEVEL SECURITY`);
      await client.query(`ALTER TABLE ${table} DISABLE TRIGGER USER`);
      // What a migration puts in by itself is in the backup too.
      await client.query(`DELETE FROM ${table}`);
      await pipeline(rows, client.query(copyFrom(`COPY ${table} (${columns.join(", ")}) FROM STDIN`)));
    }
    await setCounters(client);
    for (const table of known.keys()) await closeAgain(client, table);
    await requireRoots(client, ending.roots);
    await client.query("COMMIT");
    tell(total, total, "compared with the record's roots");
  });
}

/** Numbers that the database gives out go on after the highest one that came back. */
async function setCounters(client: pg.Client): Promise<void> {
  const { rows } = await client.query<{ name: string; column: string; counter: string }>(
    `SELECT format('%I.%I', n.nspname, c.relname) AS name, format('%I', a.attname) AS column,
       pg_get_serial_sequence(format('%I.%I', n.nspname, c.relname), a.attname) AS counter
     FROM pg_attribute a JOIN pg_class c ON c.oid = a.attrelid JOIN pg_namespace n ON n.oid = c.relnamespace
     WHERE c.relkind = 'r' AND n.nspname IN ('public', 'fact', 'derived', 'history') AND a.attnum > 0 AND NOT a.attisdropped
       AND pg_get_serial_sequence(format('%I.%I', n.nspname, c.relname), a.attname) IS NOT NULL`,
  );
  for (const { name, column, counter } of rows)
    await client.query(`SELECT setval($1, (SELECT coalesce(max(${column}), 0) + 1 FROM ${name}), false)`, [counter]);
}

async function closeAgain(client: pg.Client, table: string): Promise<void> {
  await client.query(`ALTER TABLE ${table} ENABLE TRIGGER USER`);
  await client.query(`ALTER TABLE ${table} FORCE ROW LEVEL SECURITY`);
}

async function requireRoots(client: pg.Client, roots: Contents["ending"]["roots"]): Promise<void> {
  const scopes = await scopesOf(client);
  for (const root of roots) {
    const scope = scopes.find(({ facility }) => facility === root.facility);
    const found = scope && (await rootOfLeaves(client, scope));
    if (found?.size !== root.size || found.root !== root.root)
      throw new BadBackup(
        `The record of facility ${root.facility} does not fit: ${root.size} entries with root ${root.root} were backed up, ` +
          `${found ? `${found.size} with root ${found.root}` : "none"} came back. Nothing was kept.`,
      );
  }
}

async function asOwner<Result>(url: string, work: (client: pg.Client) => Promise<Result>): Promise<Result> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
}
