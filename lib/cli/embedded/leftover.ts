import { existsSync, readFileSync, realpathSync, rmSync } from "node:fs";
import path from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { Problem } from "@/lib/cli/problem";
import { birthOf, commandLineOf, isAlive, workingFolderOf } from "@/lib/cli/process-identity";

const GRACE_MS = 30_000;

/**
 * A killed run leaves its database server behind. Called with the folder's lock in hand, so whoever
 * started that server is gone: it is stopped as a server should be, and nothing written is lost.
 * Returns what was done, for the person to read.
 */
export async function stopLeftover(cluster: string): Promise<string | undefined> {
  const pidFile = path.join(cluster, "postmaster.pid");
  if (!existsSync(pidFile)) return undefined;
  const pid = Number.parseInt(readFileSync(pidFile, "utf8"), 10);
  if (!Number.isInteger(pid) || pid <= 0 || !isAlive(pid)) return undefined;
  if (!servesFolder(pid, cluster)) {
    // The number was given to another program since; PostgreSQL would take that one for its server and refuse.
    rmSync(pidFile, { force: true });
    return undefined;
  }
  await stopServer(pid);
  return `Stopped the database server (process ${pid}) that an earlier run had left behind.`;
}

function servesFolder(pid: number, cluster: string): boolean {
  const folder = workingFolderOf(pid);
  if (folder !== undefined) return folder === realpathSync(cluster);
  const command = commandLineOf(pid) ?? "";
  return command.includes("postgres") && command.includes(cluster);
}

async function stopServer(pid: number): Promise<void> {
  const birth = birthOf(pid);
  const gone = () => birthOf(pid) !== birth;
  for (const signal of ["SIGINT", "SIGQUIT"] as const) {
    if (gone()) return;
    process.kill(pid, signal);
    const until = performance.now() + GRACE_MS;
    while (!gone() && performance.now() < until) await pause(25);
  }
  if (!gone())
    throw new Problem(`The database server of an earlier run (process ${pid}) does not stop. Stop it by hand.`);
}
