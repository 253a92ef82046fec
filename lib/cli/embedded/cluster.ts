import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import {
  chownSync,
  closeSync,
  existsSync,
  mkdtempSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import os from "node:os";
import path from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import pg from "pg";
import { Problem } from "@/lib/cli/problem";
import type { Binaries } from "./binaries";
import { makeServerFolder } from "./data-folder";
import type { ServerUser } from "./server-user";

export interface ClusterPlan {
  readonly binaries: Binaries;
  readonly user: ServerUser | undefined;
  readonly cluster: string;
  readonly log: string;
  readonly port: number;
  readonly password: string;
  /** No waiting for the disk: for tests, whose data may be lost with the machine. */
  readonly fast: boolean;
}

const READY_WITHIN_MS = 60_000;

/** Makes the cluster aside and renames it, so that a half-made one is never started. */
export function initialiseCluster({ binaries, user, cluster, password, fast }: ClusterPlan): void {
  if (existsSync(cluster)) return;
  const making = `${cluster}.making`;
  rmSync(making, { recursive: true, force: true });
  makeServerFolder(making, user);
  const secret = passwordFile(password, user);
  try {
    const run = spawnSync(
      binaries.initdb,
      // Without an encoding a bare machine gets SQL_ASCII; C sorts by bytes, and people's order is made in code.
      [`--pgdata=${making}`, "--username=postgres", `--pwfile=${secret}`, "--auth=scram-sha-256"].concat(
        ["--encoding=UTF8", "--locale=C"],
        fast ? ["--no-sync"] : [],
      ),
      { ...user, cwd: "/", env: serverEnvironment(), encoding: "utf8" },
    );
    if (run.status !== 0) {
      throw new Problem(`PostgreSQL could not make its data folder ${making}.\n${run.error?.message ?? run.stderr}`);
    }
  } finally {
    rmSync(path.dirname(secret), { recursive: true, force: true });
  }
  renameSync(making, cluster);
}

function passwordFile(password: string, user: ServerUser | undefined): string {
  const folder = mkdtempSync(path.join(os.tmpdir(), "yokeboard-"));
  const file = path.join(folder, "password");
  writeFileSync(file, `${password}\n`, { mode: 0o600 });
  if (user) for (const own of [file, folder]) chownSync(own, user.uid, user.gid);
  return file;
}

/** Starts the server and returns once it answers. A server still shutting down from before is waited for. */
export async function startServer(plan: ClusterPlan): Promise<ChildProcess> {
  const until = performance.now() + READY_WITHIN_MS;
  for (;;) {
    const before = logSize(plan.log);
    const server = spawnServer(plan);
    const outcome = await untilReady(server, plan, until);
    if (outcome === "ready") return server;
    const said = readFileSync(plan.log, "utf8").slice(before);
    // After kill -9 of the server itself its children need a moment to notice.
    const passing = said.includes("is still in use") || said.includes("already exists");
    if (outcome === "ended" && passing && performance.now() < until) {
      await pause(200);
      continue;
    }
    server.kill("SIGQUIT");
    throw new Problem(
      `PostgreSQL did not start in ${plan.cluster}. Its log is ${plan.log}; the last lines:\n${tail(said)}`,
    );
  }
}

function spawnServer({ binaries, user, cluster, port, log, fast }: ClusterPlan): ChildProcess {
  const options = {
    listen_addresses: "127.0.0.1",
    unix_socket_directories: "",
    max_connections: "200",
    timezone: "UTC",
    log_timezone: "UTC",
    ...(fast ? { fsync: "off", synchronous_commit: "off", full_page_writes: "off" } : {}),
  };
  const settings = Object.entries(options).flatMap(([name, value]) => ["-c", `${name}=${value}`]);
  const sink = openSync(log, "a", 0o600);
  try {
    return spawn(binaries.postgres, ["-D", cluster, "-p", String(port), ...settings], {
      ...user,
      cwd: "/",
      env: serverEnvironment(),
      stdio: ["ignore", sink, sink],
      // A session of its own: Ctrl-C reaches us alone, and we stop the database after the server that uses it.
      detached: true,
    });
  } finally {
    closeSync(sink);
  }
}

async function untilReady(server: ChildProcess, plan: ClusterPlan, until: number): Promise<"ready" | "ended" | "late"> {
  let ended = false;
  server.once("exit", () => {
    ended = true;
  });
  server.once("error", () => {
    ended = true;
  });
  while (performance.now() < until) {
    if (ended) return "ended";
    if (await answers(plan)) return "ready";
    await pause(25);
  }
  return "late";
}

async function answers({ port, password }: ClusterPlan): Promise<boolean> {
  const client = new pg.Client({ host: "127.0.0.1", port, user: "postgres", password, database: "postgres" });
  client.on("error", () => undefined);
  try {
    await client.connect();
    await client.end();
    return true;
  } catch {
    return false;
  }
}

/** Only what the server needs: PG* settings of the person's shell are not for it. */
function serverEnvironment(): NodeJS.ProcessEnv {
  const { PATH, TMPDIR } = process.env;
  return { PATH, TMPDIR, LC_ALL: "C", NODE_ENV: process.env.NODE_ENV };
}

function logSize(log: string): number {
  return existsSync(log) ? readFileSync(log, "utf8").length : 0;
}

function tail(text: string): string {
  return text.trim().split("\n").slice(-8).join("\n");
}
