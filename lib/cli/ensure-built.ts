import { spawn } from "node:child_process";
import { readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { setTimeout as pause } from "node:timers/promises";
import { buildServiceWorker } from "./build-service-worker";
import { BUILD_FOLDER, hashSources, isBuildCurrent, stampBuild } from "./build-stamp";
import { Problem } from "./problem";
import { birthOf } from "./process-identity";

const LOCK = `${BUILD_FOLDER}.building`;

/** Builds the application if its sources are newer than the build. Two runs at once build once. */
export async function ensureBuilt(tell: (line: string) => void): Promise<void> {
  if (isBuildCurrent()) return;
  const unlock = await lockBuild(tell);
  try {
    // Another run may have built it while we waited.
    if (isBuildCurrent()) return;
    tell("Building the application (a minute or two, only when its sources have changed) ...");
    const started = performance.now();
    await build();
    tell(`Built in ${Math.round((performance.now() - started) / 1000)} s.`);
  } finally {
    unlock();
  }
}

async function build(): Promise<void> {
  writeTypesSettings();
  const made = hashSources();
  await buildServiceWorker(made);
  const next = createRequire(import.meta.url).resolve("next/dist/bin/next");
  // Never through npx: a signal would end npx and leave the build behind.
  const child = spawn(process.execPath, [next, "build"], {
    stdio: ["ignore", "pipe", "pipe"],
    env: { ...process.env, NODE_ENV: "production", NEXT_TELEMETRY_DISABLED: "1", NO_COLOR: "1" },
  });
  const end = () => child.kill("SIGTERM");
  process.once("exit", end);
  let said = "";
  for (const stream of [child.stdout, child.stderr]) {
    stream.on("data", (chunk: Buffer) => {
      said += chunk.toString("utf8");
    });
  }
  const code = await new Promise<number | null>((resolve, reject) => {
    child.once("error", reject);
    child.once("close", resolve);
  });
  process.removeListener("exit", end);
  if (code !== 0) throw new Problem(`The application could not be built:\n${said}`);
  stampBuild(made);
}

/** A build beside the usual one gets its own TypeScript settings, because Next writes its folder into them. */
function writeTypesSettings(): void {
  if (BUILD_FOLDER === ".next") return;
  const include = ["next-env.d.ts", "**/*.ts", "**/*.tsx", `${BUILD_FOLDER}/types/**/*.ts`];
  writeFileSync(`${BUILD_FOLDER}.tsconfig.json`, JSON.stringify({ extends: "./tsconfig.json", include }));
}

async function lockBuild(tell: (line: string) => void): Promise<() => void> {
  const mine = JSON.stringify({ pid: process.pid, birth: birthOf(process.pid) });
  for (let waited = false; ; waited = true) {
    try {
      writeFileSync(LOCK, mine, { flag: "wx" });
      return () => rmSync(LOCK, { force: true });
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== "EEXIST") throw error;
    }
    if (!isHeld()) rmSync(LOCK, { force: true });
    else if (!waited) tell("Waiting for another run that is building the application ...");
    await pause(250);
  }
}

function isHeld(): boolean {
  try {
    const holder = JSON.parse(readFileSync(LOCK, "utf8")) as { pid: number; birth: string };
    return birthOf(holder.pid) === holder.birth;
  } catch {
    return isFresh();
  }
}

/** Unreadable: gone or being written just now, unless it has been so for long and its writer was killed. */
function isFresh(): boolean {
  const age = statSync(LOCK, { throwIfNoEntry: false })?.mtimeMs;
  return age === undefined || Date.now() - age < 10_000;
}
