import pg from "pg";
import { scopesOf } from "@/lib/storage/backup/catalogue";
import { rootOfLeaves } from "@/lib/storage/backup/roots";
import type { Writers } from "./writers";

/** Everything that is not as it was acknowledged; none when all is well. */
export async function lookAfterwards(superuserUrl: string, writers: Writers, prefix: string): Promise<string[]> {
  const client = new pg.Client({ connectionString: superuserUrl });
  await client.connect();
  try {
    const notes = await texts(
      client,
      "SELECT answer->>'note' FROM fact.observation WHERE answer->>'note' LIKE $1",
      prefix,
    );
    const receipts = await texts(client, "SELECT key FROM public.receipt WHERE key LIKE '%key-of-' || $1", prefix);
    const leaves = await texts(
      client,
      "SELECT body FROM history.leaf WHERE body LIKE '%\"command\":\"record-answers\"%' AND $1 <> ''",
      prefix,
    );
    const wrong = [...writers.refused];
    const lost = writers.acknowledged.filter((note) => !notes.includes(note));
    if (lost.length > 0) wrong.push(`${lost.length} acknowledged answers are lost, ${lost[0]} among them`);
    if (new Set(notes).size !== notes.length)
      wrong.push(`${notes.length - new Set(notes).size} answers are there twice`);
    if (notes.length !== writers.acknowledged.length)
      wrong.push(`${notes.length} answers for ${writers.acknowledged.length} acknowledged`);
    if (receipts.length !== notes.length) wrong.push(`${receipts.length} receipts for ${notes.length} answers`);
    if (leaves.length < notes.length) wrong.push(`${leaves.length} entries of the record for ${notes.length} answers`);
    return [...wrong, ...(await wrongRoots(client))];
  } finally {
    await client.end();
  }
}

async function texts(client: pg.Client, sql: string, prefix: string): Promise<string[]> {
  const { rows } = await client.query({ text: sql, values: [`${prefix}-%`], rowMode: "array" });
  return rows.map(([text]: string[]) => text ?? "");
}

/** The tree computed from its leaves is the one that every command kept up. */
async function wrongRoots(client: pg.Client): Promise<string[]> {
  const wrong: string[] = [];
  await client.query("BEGIN");
  for (const scope of await scopesOf(client)) {
    const { size } = await rootOfLeaves(client, scope);
    const { rows } = await client.query<{ size: string }>(
      "SELECT size::text FROM history.frontier WHERE facility_id = $1",
      [scope.facility],
    );
    if (Number(rows[0]?.size) !== size) wrong.push(`the record has ${size} entries, and says it has ${rows[0]?.size}`);
  }
  await client.query("COMMIT");
  return wrong;
}
