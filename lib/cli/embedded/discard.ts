import { existsSync, readdirSync, readFileSync, realpathSync, rmdirSync, rmSync } from "node:fs";
import path from "node:path";
import { lockFolder } from "./folder-lock";
import { stopLeftover } from "./leftover";

/** Everything a run keeps in its data folder. Nothing else is ever deleted: the folder may be a person's own. */
const OURS = [
  "cluster",
  "cluster.making",
  "cluster-location",
  "passwords.json",
  "session-secret",
  "clock.json",
  "seeding",
  "postgresql.log",
];

/** Stops what an earlier run left behind in a data folder and deletes what was kept there. */
export async function discardDataFolder(folder: string): Promise<void> {
  if (!existsSync(folder)) return;
  const home = realpathSync(folder);
  const unlock = lockFolder(home);
  try {
    const cluster = keptCluster(home);
    if (cluster !== undefined) {
      await stopLeftover(cluster);
      rmSync(cluster, { recursive: true, force: true });
      if (path.dirname(cluster) !== home) removeIfEmpty(path.dirname(cluster));
    }
    for (const name of OURS) rmSync(path.join(home, name), { recursive: true, force: true });
  } finally {
    unlock();
  }
  removeIfEmpty(home);
}

function removeIfEmpty(folder: string): void {
  if (existsSync(folder) && readdirSync(folder).length === 0) rmdirSync(folder);
}

/** The pointer may name a place that is gone, which is no reason to keep the rest. */
function keptCluster(home: string): string | undefined {
  const pointer = path.join(home, "cluster-location");
  if (existsSync(pointer)) return readFileSync(pointer, "utf8").trim();
  const inside = path.join(home, "cluster");
  return existsSync(inside) ? inside : undefined;
}
