import { spawn } from "node:child_process";
import path from "node:path";
import pg from "pg";
import { OWNER_ROLE } from "@/lib/cli/embedded/roles";
import { connectTo, EMPTY_TEMPLATE, type TestCluster } from "./cluster-address";

/** When it is in a seeded database: a Wednesday, 06:10 in Chicago. */
export const SEED_NOW = Date.parse("2026-03-04T12:10:00Z");

/** Any number will do: it keeps two test files from seeding at the same time. */
const SEEDING_LOCK = 7_021_153;

/** The name of a template with the invented hospital in it, made by the first test that asks. */
export async function seededTemplate(cluster: TestCluster, days: number): Promise<string> {
  const name = `template_seeded_${days}`;
  const admin = new pg.Client({ connectionString: cluster.superuserUrl });
  await admin.connect();
  try {
    await admin.query("SELECT pg_advisory_lock($1)", [SEEDING_LOCK]);
    const found = await admin.query<{ datistemplate: boolean }>(
      "SELECT datistemplate FROM pg_database WHERE datname = $1",
      [name],
    );
    if (found.rows[0]?.datistemplate) return name;
    // There without the mark: an attempt that did not get to its end.
    await admin.query(`DROP DATABASE IF EXISTS ${name} WITH (FORCE)`);
    await admin.query(`CREATE DATABASE ${name} OWNER ${OWNER_ROLE} TEMPLATE ${EMPTY_TEMPLATE} STRATEGY file_copy`);
    await seedInOwnProcess(connectTo(cluster.appUrl, name), connectTo(cluster.ownerUrl, name), days);
    await admin.query(`ALTER DATABASE ${name} WITH IS_TEMPLATE true ALLOW_CONNECTIONS false`);
    return name;
  } finally {
    await admin.end();
  }
}

/** In a process of its own, so that the connections of the seeding end with it and the copy can begin. */
async function seedInOwnProcess(databaseUrl: string, ownerUrl: string, days: number): Promise<void> {
  const script = path.join(process.cwd(), "tests", "support", "seed-process.ts");
  const child = spawn(process.execPath, ["--import", "tsx", script], {
    env: { ...process.env, DATABASE_URL: databaseUrl, DATABASE_OWNER_URL: ownerUrl, SEED_DAYS: String(days) },
    stdio: ["ignore", "pipe", "pipe"],
  });
  let said = "";
  for (const stream of [child.stdout, child.stderr]) {
    stream.on("data", (chunk: Buffer) => {
      said += chunk.toString("utf8");
    });
  }
  const code = await new Promise<number | null>((resolve, reject) => {
    child.once("error", reject);
    child.once("exit", resolve);
  });
  if (code !== 0) throw new Error(`Seeding the test template failed (exit code ${code}):\n${said}`);
}
