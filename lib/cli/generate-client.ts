import { spawnSync } from "node:child_process";
import { createRequire } from "node:module";

/**
 * Writes the database client from the schema, without any network.
 *
 * The generator never runs the native schema engine, but downloads it unless told where one is:
 * any executable will do, so it is told the one that is surely there.
 */
function generateClient(): number {
  const cli = locateGenerator();
  if (cli === undefined) {
    console.error("The package `prisma` is not installed, so the database client cannot be generated. Run `npm ci`.");
    return 1;
  }
  const run = spawnSync(process.execPath, [cli, "generate"], {
    stdio: ["ignore", "pipe", "pipe"],
    encoding: "utf8",
    env: {
      ...process.env,
      PRISMA_SCHEMA_ENGINE_BINARY: process.execPath,
      PRISMA_HIDE_UPDATE_MESSAGE: "1",
      CHECKPOINT_DISABLE: "1",
    },
  });
  if (run.status !== 0) console.error(`${run.stdout ?? ""}${run.stderr ?? ""}`);
  return run.status ?? 1;
}

function locateGenerator(): string | undefined {
  try {
    return createRequire(import.meta.url).resolve("prisma/build/index.js");
  } catch {
    return undefined;
  }
}

process.exitCode = generateClient();
