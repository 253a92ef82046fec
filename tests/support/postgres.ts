import pg from "pg";
import type { Scope } from "@/lib/storage/client";

/** A plain connection, for what the product's own client would not say. */
export async function connected<Value>(url: string, work: (client: pg.Client) => Promise<Value>): Promise<Value> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
}

/** One transaction that sees a scope's rows alone, as the product's transactions do. */
export async function scoped<Value>(
  client: pg.Client,
  { organisationId, facilityId }: Scope,
  work: () => Promise<Value>,
): Promise<Value> {
  await client.query("BEGIN");
  try {
    await client.query("SELECT set_config('app.organisation', $1, true), set_config('app.facility', $2, true)", [
      organisationId,
      facilityId,
    ]);
    const value = await work();
    await client.query("COMMIT");
    return value;
  } catch (error) {
    await client.query("ROLLBACK");
    throw error;
  }
}

/** The state a statement ended in, and the constraint that refused it: "done" when nothing did. */
export async function refusalOf(attempt: Promise<unknown>): Promise<string> {
  try {
    await attempt;
    return "done";
  } catch (error) {
    if (!(error instanceof pg.DatabaseError)) throw error;
    return error.constraint ? `${error.code} ${error.constraint}` : String(error.code);
  }
}

export const DENIED = "42501";

const SCHEMAS = ["public", "fact", "derived", "history"];

/** Every table of the product, as "schema.table". */
export async function tablesOf(client: pg.Client): Promise<string[]> {
  const { rows } = await client.query<{ name: string }>(
    `SELECT format('%s.%s', n.nspname, c.relname) AS name FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
     WHERE c.relkind IN ('r', 'p') AND n.nspname = ANY ($1) ORDER BY 1`,
    [SCHEMAS],
  );
  return rows.map(({ name }) => name);
}

/** Not to be read by the application, so not to be compared through it. */
const UNREADABLE = new Set(["public.person_secret"]);

/**
 * What every table holds, as "rows:youngest writer:sum of writers": equal before and after means that no row was added,
 * removed or rewritten, because every row names the transaction that wrote it. Much cheaper than comparing the values.
 */
export function contentsOf(url: string, scope: Scope): Promise<Record<string, string>> {
  return connected(url, async (client) => {
    const tables = (await tablesOf(client)).filter((table) => !UNREADABLE.has(table));
    return scoped(client, scope, async () => {
      const parts = tables.map(
        (table) =>
          `SELECT '${table}' AS name, concat_ws(':', count(*), max(t.xmin::text::bigint), sum(t.xmin::text::bigint)) AS held FROM ${table} t`,
      );
      const { rows } = await client.query<{ name: string; held: string }>(parts.join(" UNION ALL "));
      return Object.fromEntries(rows.map(({ name, held }) => [name, held]));
    });
  });
}
