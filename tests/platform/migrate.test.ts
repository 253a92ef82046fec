import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import pg from "pg";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { migrate } from "@/lib/storage/migrate";
import { createBareDatabase, type TestDatabase } from "@/tests/support/database";

let schema: string;
let database: TestDatabase;

beforeEach(async () => {
  schema = mkdtempSync(path.join(os.tmpdir(), "yokeboard-schema-"));
  writeFileSync(path.join(schema, "schema.prisma"), 'datasource db {\n  provider = "postgresql"\n}\n');
  mkdirSync(path.join(schema, "migrations"));
  writeFileSync(path.join(schema, "migrations", "migration_lock.toml"), 'provider = "postgresql"\n');
  database = await createBareDatabase();
});

afterEach(async () => {
  await database.drop();
  rmSync(schema, { recursive: true, force: true });
});

function writeMigration(name: string, sql: string): void {
  const folder = path.join(schema, "migrations", name);
  mkdirSync(folder, { recursive: true });
  writeFileSync(path.join(folder, "migration.sql"), sql);
}

async function ask(sql: string): Promise<unknown[]> {
  const client = new pg.Client({ connectionString: database.ownerUrl });
  await client.connect();
  try {
    return (await client.query(sql)).rows;
  } finally {
    await client.end();
  }
}

const DOUBLING = `CREATE FUNCTION twice(n int) RETURNS int LANGUAGE plpgsql AS $$
BEGIN
  n := n * 2; -- a semicolon inside a body
  RETURN n;
END $$;`;

describe("migrations", () => {
  it("run in order, once, with function bodies whole", async () => {
    writeMigration("0002_row", "INSERT INTO reading SELECT twice(21);");
    writeMigration("0001_table", `CREATE TABLE reading (value int);\n${DOUBLING}`);
    expect(await migrate(database.ownerUrl, { schema })).toEqual({ applied: ["0001_table", "0002_row"] });
    expect(await migrate(database.ownerUrl, { schema })).toEqual({ applied: [] });
    expect(await ask("SELECT value FROM reading")).toEqual([{ value: 42 }]);
  });

  it("leave nothing of a script that fails, name the line, and run it when it is mended", async () => {
    writeMigration("0001_table", "CREATE TABLE reading (value int);\nINSERT INTO raeding VALUES (1);");
    await expect(migrate(database.ownerUrl, { schema })).rejects.toThrow(/relation "raeding" does not exist; line 2/);
    expect(await ask("SELECT to_regclass('reading')::text AS found")).toEqual([{ found: null }]);

    writeMigration("0001_table", "CREATE TABLE reading (value int);\nINSERT INTO reading VALUES (1);");
    expect(await migrate(database.ownerUrl, { schema })).toEqual({ applied: ["0001_table"] });
  });

  it("started twice at the same moment are applied once", async () => {
    writeMigration("0001_table", "CREATE TABLE reading (value int); INSERT INTO reading VALUES (1);");
    const both = await Promise.all([migrate(database.ownerUrl, { schema }), migrate(database.ownerUrl, { schema })]);
    expect(both.flatMap(({ applied }) => applied)).toEqual(["0001_table"]);
    expect(await ask("SELECT count(*)::int AS rows FROM reading")).toEqual([{ rows: 1 }]);
  });

  it("write the table that Prisma's own command reads", async () => {
    writeMigration("0001_table", "CREATE TABLE reading (value int);");
    await migrate(database.ownerUrl, { schema });
    const sql =
      "SELECT migration_name, finished_at IS NOT NULL AS finished, length(checksum) AS digits FROM _prisma_migrations";
    expect(await ask(sql)).toEqual([{ migration_name: "0001_table", finished: true, digits: 64 }]);
  });
});
