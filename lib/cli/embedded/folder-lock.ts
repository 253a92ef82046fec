import { readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { Problem } from "@/lib/cli/problem";
import { birthOf } from "@/lib/cli/process-identity";

interface Holder {
  readonly pid: number;
  /** Tells this process from a later one with the same number. */
  readonly birth: string;
}

/** Throws if a living run owns the folder; to be asked before anything is deleted or opened. */
export function requireFree(folder: string): void {
  const holder = holderOf(folder);
  if (holder) throw inUse(folder, holder);
}

/** The living run that owns the folder, if there is one. */
export function holderOf(folder: string): { readonly pid: number } | null {
  const holder = readHolder(lockFile(folder));
  return holder && isRunning(holder) ? holder : null;
}

/** One run at a time owns a data folder. Returns the way to give it back. */
export function lockFolder(folder: string): () => void {
  const file = lockFile(folder);
  const mine: Holder = { pid: process.pid, birth: birthOf(process.pid) ?? "" };
  for (let attempt = 0; attempt < 5; attempt += 1) {
    if (tryCreate(file, mine)) return () => release(file, mine);
    const holder = readHolder(file);
    if (holder && isRunning(holder)) throw inUse(folder, holder);
    setAside(file);
  }
  throw new Problem(`The data folder ${folder} could not be claimed: another run is starting on it.`);
}

const lockFile = (folder: string) => path.join(folder, "in-use.json");

function inUse(folder: string, { pid }: { readonly pid: number }): Problem {
  return new Problem(
    `The data folder ${folder} is in use by a run with process number ${pid}. ` +
      "Stop that one first (Ctrl-C in its window), or choose another folder with --data FOLDER.",
  );
}

function tryCreate(file: string, holder: Holder): boolean {
  try {
    writeFileSync(file, JSON.stringify(holder), { flag: "wx", mode: 0o600 });
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") return false;
    throw error;
  }
}

function readHolder(file: string): Holder | undefined {
  try {
    return JSON.parse(readFileSync(file, "utf8")) as Holder;
  } catch {
    // Gone meanwhile, or cut short by a kill: either way nobody can be shown to hold it.
    return undefined;
  }
}

function isRunning(holder: Holder): boolean {
  return birthOf(holder.pid) === holder.birth;
}

function setAside(file: string): void {
  const aside = `${file}.${process.pid}`;
  try {
    renameSync(file, aside);
    rmSync(aside, { force: true });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ENOENT") throw error;
  }
}

function release(file: string, mine: Holder): void {
  const holder = readHolder(file);
  if (holder?.pid === mine.pid && holder.birth === mine.birth) rmSync(file, { force: true });
}
