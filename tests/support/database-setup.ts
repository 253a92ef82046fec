import { existsSync, readdirSync, rmSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import pg from "pg";
import type { TestProject } from "vitest/node";
import { discardDataFolder } from "@/lib/cli/embedded/discard";
import { OWNER_ROLE } from "@/lib/cli/embedded/roles";
import { type Embedded, startEmbedded } from "@/lib/cli/embedded/start";
import { Problem } from "@/lib/cli/problem";
import { migrate } from "@/lib/storage/migrate";
import { connectTo, EMPTY_TEMPLATE } from "./cluster-address";

/** One PostgreSQL for the whole run, shared by the projects that ask for it and stopped with the last of them. */
const PREFIX = "yokeboard-test-";
const shared = globalThis as {
  __yokeboardTestCluster?: { users: number; starting: Promise<Embedded>; folder: string };
};

export default async function setUp(project: TestProject): Promise<() => Promise<void>> {
  shared.__yokeboardTestCluster ??= begin();
  const cluster = shared.__yokeboardTestCluster;
  cluster.users += 1;
  const { superuserUrl, ownerUrl, appUrl } = await cluster.starting;
  project.provide("testCluster", { superuserUrl, ownerUrl, appUrl, folder: cluster.folder });
  return async () => {
    cluster.users -= 1;
    if (cluster.users > 0) return;
    delete shared.__yokeboardTestCluster;
    await (await cluster.starting).stop();
    await discard(cluster.folder);
  };
}

function begin() {
  const folder = path.join(os.tmpdir(), `${PREFIX}${process.pid}`);
  return { users: 0, folder, starting: startCluster(folder) };
}

async function startCluster(folder: string): Promise<Embedded> {
  await discardLeftovers();
  const cluster = await startEmbedded({ folder, fast: true });
  await makeEmptyTemplate(cluster);
  return cluster;
}

/** What earlier runs left behind when they were killed; a run that is still going keeps its folder. */
async function discardLeftovers(): Promise<void> {
  for (const name of readdirSync(os.tmpdir()).filter((entry) => entry.startsWith(PREFIX))) {
    const folder = path.join(os.tmpdir(), name);
    if (!existsSync(folder)) continue;
    await discard(folder).catch((error: unknown) => {
      if (!(error instanceof Problem)) throw error;
    });
  }
}

async function discard(folder: string): Promise<void> {
  await discardDataFolder(folder);
  rmSync(folder, { recursive: true, force: true });
}

/** Migrated once; every test's database is a copy of it. */
async function makeEmptyTemplate({ superuserUrl, ownerUrl }: Embedded): Promise<void> {
  const admin = new pg.Client({ connectionString: superuserUrl });
  await admin.connect();
  try {
    await admin.query(`CREATE DATABASE ${EMPTY_TEMPLATE} OWNER ${OWNER_ROLE}`);
    await migrate(connectTo(ownerUrl, EMPTY_TEMPLATE));
    // A stray connection would make every copy fail.
    await admin.query(`ALTER DATABASE ${EMPTY_TEMPLATE} WITH IS_TEMPLATE true ALLOW_CONNECTIONS false`);
  } finally {
    await admin.end();
  }
}
