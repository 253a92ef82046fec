import { execFileSync } from "node:child_process";
import { readFileSync, readlinkSync } from "node:fs";

/**
 * Who a process is, beyond its number: numbers are used again, so a number alone never proves
 * that the process which wrote it down is still the one that answers to it.
 */

export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}

/** A text that differs between two processes which had the same number, or undefined if there is no such process. */
export function birthOf(pid: number): string | undefined {
  if (!isAlive(pid)) return undefined;
  return process.platform === "linux" ? birthFromProc(pid) : fromPs(pid, "lstart=");
}

/** The folder a process works in; PostgreSQL's server works in its data folder. */
export function workingFolderOf(pid: number): string | undefined {
  if (process.platform !== "linux") return undefined;
  try {
    return readlinkSync(`/proc/${pid}/cwd`);
  } catch {
    return undefined;
  }
}

export function commandLineOf(pid: number): string | undefined {
  if (process.platform !== "linux") return fromPs(pid, "command=");
  try {
    return readFileSync(`/proc/${pid}/cmdline`, "utf8").replaceAll("\0", " ").trim();
  } catch {
    return undefined;
  }
}

/** Ticks since boot (field 22 of stat) with the boot itself, so that a restart of the machine counts too. */
function birthFromProc(pid: number): string | undefined {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, "utf8");
    const afterName = stat.slice(stat.lastIndexOf(")") + 2).split(" ");
    if (afterName[0] === "Z") return undefined;
    const boot = readFileSync("/proc/sys/kernel/random/boot_id", "utf8").trim();
    return `${boot}:${afterName[19]}`;
  } catch {
    return undefined;
  }
}

function fromPs(pid: number, column: string): string | undefined {
  try {
    const said = execFileSync("ps", ["-o", column, "-p", String(pid)], { encoding: "utf8" }).trim();
    return said === "" ? undefined : said;
  } catch {
    return undefined;
  }
}
