import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import path from "node:path";

/** Where the build stands; a second one may stand beside it (next.config.ts). */
export const BUILD_FOLDER = process.env.YOKEBOARD_BUILD ?? ".next";

/** Everything that a build is made from. */
const SOURCES = ["app", "lib", "public", "prisma/schema.prisma", "prisma/models", "instrumentation.ts", "proxy.ts"];
const SETTINGS = ["next.config.ts", "tsconfig.json", "package-lock.json"];
/** Written by a build's own tools, or run beside it and never inside. */
const APART = ["lib/storage/generated", "lib/cli", "public/service-worker.js"];

const stampFile = path.join(BUILD_FOLDER, "made-from");

/** True if the build was made from exactly these sources. */
export function isBuildCurrent(): boolean {
  if (!existsSync(stampFile) || !existsSync(path.join(BUILD_FOLDER, "BUILD_ID"))) return false;
  return readFileSync(stampFile, "utf8") === hashSources();
}

/** `made` is the hash taken before building: a file changed meanwhile makes the build old at once. */
export function stampBuild(made: string): void {
  writeFileSync(stampFile, made);
}

export function hashSources(): string {
  const hash = createHash("sha256");
  hash.update(process.version);
  for (const file of [...SOURCES.flatMap(filesUnder), ...SETTINGS].sort()) {
    if (!existsSync(file)) continue;
    hash.update(file).update("\0").update(readFileSync(file)).update("\0");
  }
  return hash.digest("hex");
}

function filesUnder(place: string): string[] {
  if (!existsSync(place) || APART.includes(place)) return [];
  if (statSync(place).isFile()) return [place];
  return readdirSync(place)
    .map((name) => path.posix.join(place, name))
    .flatMap(filesUnder);
}
