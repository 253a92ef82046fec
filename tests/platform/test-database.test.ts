import pg from "pg";
import { describe, expect, it } from "vitest";
import { createTestDatabase } from "@/tests/support/database";

async function ask(url: string, sql: string): Promise<unknown[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return (await client.query(sql)).rows;
  } finally {
    await client.end();
  }
}

describe("a test's own database", () => {
  it("shows nothing of another test's, and is gone after drop", async () => {
    const [first, second] = await Promise.all([createTestDatabase(), createTestDatabase()]);
    await ask(first.ownerUrl, "CREATE TABLE seen_here (id int)");
    expect(await ask(second.ownerUrl, "SELECT to_regclass('seen_here') AS found")).toEqual([{ found: null }]);
    await Promise.all([first.drop(), second.drop()]);
    await expect(ask(first.appUrl, "SELECT 1")).rejects.toThrow(/does not exist/);
  });

  it("is migrated and used as the app role, which is no superuser", async () => {
    const database = await createTestDatabase();
    expect(await ask(database.appUrl, "SELECT current_user AS who, current_setting('is_superuser') AS super")).toEqual([
      { who: "yokeboard_app", super: "off" },
    ]);
    const migrations = await ask(database.ownerUrl, "SELECT 1 FROM _prisma_migrations WHERE finished_at IS NOT NULL");
    expect(migrations.length).toBeGreaterThan(0);
    await database.drop();
  });
});
