import { spawn } from "node:child_process";
import { once } from "node:events";
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import pg from "pg";
import { afterEach, describe, expect, it } from "vitest";
import { discardDataFolder } from "@/lib/cli/embedded/discard";
import { type Embedded, startEmbedded } from "@/lib/cli/embedded/start";
import { birthOf } from "@/lib/cli/process-identity";

const folders: string[] = [];
const running = new Set<Embedded>();

function newFolder(): string {
  const folder = mkdtempSync(path.join(os.tmpdir(), "yokeboard-platform-"));
  if (process.getuid?.() === 0) chmodSync(folder, 0o711);
  folders.push(folder);
  return folder;
}

async function start(folder: string, tell?: (line: string) => void): Promise<Embedded> {
  const embedded = await startEmbedded({ folder, fast: true, ...(tell ? { tell } : {}) });
  running.add(embedded);
  return embedded;
}

async function ask<Row extends pg.QueryResultRow>(url: string, sql: string): Promise<Row[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return (await client.query<Row>(sql)).rows;
  } finally {
    await client.end();
  }
}

/** A run that is killed the hard way once its database answers; returns the server it leaves behind. */
async function killedRun(folder: string): Promise<number> {
  const script = [
    'import { startEmbedded } from "@/lib/cli/embedded/start";',
    `const embedded = await startEmbedded({ folder: ${JSON.stringify(folder)}, fast: true });`,
    "console.log('pid', embedded.pid);",
    "setInterval(() => undefined, 1000);",
  ].join("\n");
  const child = spawn(process.execPath, ["--import", "tsx", "--input-type=module", "-e", script], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  const [said] = (await once(child.stdout, "data")) as [Buffer];
  child.kill("SIGKILL");
  await once(child, "exit");
  return Number(/pid (\d+)/.exec(said.toString("utf8"))?.[1]);
}

afterEach(async () => {
  for (const embedded of running) await embedded.stop();
  running.clear();
  for (const folder of folders.splice(0)) {
    await discardDataFolder(folder);
    rmSync(folder, { recursive: true, force: true });
  }
});

describe("the embedded database", () => {
  it("starts in an empty folder, keeps what was written, and frees the folder when stopped", async () => {
    const folder = newFolder();
    const first = await start(folder);
    await ask(first.ownerUrl, "CREATE TABLE kept (id int); INSERT INTO kept VALUES (7)");
    await first.stop();
    expect(birthOf(first.pid)).toBeUndefined();

    const second = await start(folder);
    expect(await ask(second.ownerUrl, "SELECT id FROM kept")).toEqual([{ id: 7 }]);
  });

  it("speaks UTF-8, sorts by bytes, keeps UTC and listens on the loopback alone", async () => {
    const { ownerUrl } = await start(newFolder());
    const sql = `SELECT current_setting('server_encoding') AS encoding, current_setting('timezone') AS zone,
      current_setting('listen_addresses') AS listens, datcollate AS collate FROM pg_database WHERE datname = current_database()`;
    expect(await ask(ownerUrl, sql)).toEqual([{ encoding: "UTF8", zone: "UTC", listens: "127.0.0.1", collate: "C" }]);
  });

  it("gives neither role a way around row-level security, and the app no right to make tables", async () => {
    const { appUrl, ownerUrl } = await start(newFolder());
    const sql = `SELECT rolname, rolsuper, rolbypassrls, rolcreaterole FROM pg_roles
      WHERE rolname LIKE 'yokeboard%' ORDER BY rolname`;
    const none = { rolsuper: false, rolbypassrls: false, rolcreaterole: false };
    expect(await ask(ownerUrl, sql)).toEqual([
      { rolname: "yokeboard_app", ...none },
      { rolname: "yokeboard_owner", ...none },
    ]);
    await expect(ask(appUrl, "CREATE TABLE public.mine (id int)")).rejects.toThrow(/permission denied/);
  });

  it("keeps its passwords where only the owner of the folder reads them, and refuses a wrong one", async () => {
    const folder = newFolder();
    const { appUrl } = await start(folder);
    expect(statSync(path.join(folder, "passwords.json")).mode & 0o777).toBe(0o600);
    const wrong = new URL(appUrl);
    wrong.password = "guess";
    await expect(ask(wrong.href, "SELECT 1")).rejects.toThrow(/password authentication failed/);
  });

  it("refuses a folder that a living run holds, and says which", async () => {
    const folder = newFolder();
    await start(folder);
    await expect(start(folder)).rejects.toThrow(new RegExp(`in use by a run with process number ${process.pid}`));
  });

  it("stops the server that a killed run left behind, and goes on with its data", async () => {
    const folder = newFolder();
    const leftover = await killedRun(folder);
    expect(birthOf(leftover)).toBeDefined();
    const told: string[] = [];
    const embedded = await start(folder, (line) => told.push(line));
    expect(birthOf(leftover)).toBeUndefined();
    expect(told.join()).toContain(`process ${leftover}`);
    expect(await ask(embedded.appUrl, "SELECT 1 AS one")).toEqual([{ one: 1 }]);
  });

  it("starts again after the server itself was killed", async () => {
    const folder = newFolder();
    const first = await start(folder);
    process.kill(first.pid, "SIGKILL");
    await first.stop();
    const second = await start(folder);
    expect(await ask(second.appUrl, "SELECT 1 AS one")).toEqual([{ one: 1 }]);
  });

  it("is not kept from starting by a process that was given the number of an earlier server", async () => {
    const folder = newFolder();
    await (await start(folder)).stop();
    const cluster = path.join(folder, "cluster");
    expect(existsSync(cluster)).toBe(true);
    // This very process stands in for the stranger: alive, and no database server.
    writeFileSync(path.join(cluster, "postmaster.pid"), `${process.pid}\n${cluster}\n1\n5432\n\n127.0.0.1\n0 0\n`);
    const embedded = await start(folder);
    expect(await ask(embedded.appUrl, "SELECT 1 AS one")).toEqual([{ one: 1 }]);
  });

  it("is not kept from starting by a lock whose process number now belongs to another", async () => {
    const folder = newFolder();
    writeFileSync(
      path.join(folder, "in-use.json"),
      JSON.stringify({ pid: process.pid, birth: "of an earlier process" }),
    );
    const embedded = await start(folder);
    expect(await ask(embedded.appUrl, "SELECT 1 AS one")).toEqual([{ one: 1 }]);
  });

  it("says plainly that a data folder is a file", async () => {
    const file = path.join(newFolder(), "clock.json");
    writeFileSync(file, "{}");
    await expect(start(file)).rejects.toThrow(/it is a file, not a folder/);
  });

  it("works in a folder that only its owner may enter", async () => {
    const closed = path.join(newFolder(), "closed");
    mkdirSync(closed, { mode: 0o700 });
    const folder = path.join(closed, "data");
    const embedded = await start(folder);
    expect(await ask(embedded.appUrl, "SELECT 1 AS one")).toEqual([{ one: 1 }]);
    await embedded.stop();
    const again = await start(folder);
    expect(await ask(again.appUrl, "SELECT 1 AS one")).toEqual([{ one: 1 }]);
    await again.stop();
    const pointer = path.join(folder, "cluster-location");
    const elsewhere = existsSync(pointer) ? readFileSync(pointer, "utf8").trim() : path.join(folder, "cluster");
    await discardDataFolder(folder);
    expect(existsSync(elsewhere)).toBe(false);
  });
});
