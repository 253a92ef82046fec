import { execFileSync, spawnSync } from "node:child_process";
import { Problem } from "@/lib/cli/problem";

/** The account PostgreSQL runs under when we are root, which it refuses to run as. */
export interface ServerUser {
  readonly uid: number;
  readonly gid: number;
}

const ACCOUNT = "postgres";

/** Undefined when we are not root: then the server runs as ourselves. */
export function findServerUser(): ServerUser | undefined {
  if (process.getuid?.() !== 0) return undefined;
  const known = lookUp();
  if (known) return known;
  try {
    execFileSync("groupadd", ["--system", ACCOUNT], { stdio: "ignore" });
  } catch {
    // The group may stand already without the account; useradd below says so if it does not.
  }
  try {
    execFileSync("useradd", ["--system", "--no-create-home", "--gid", ACCOUNT, ACCOUNT], { stdio: "ignore" });
  } catch {
    throw new Problem(
      `PostgreSQL refuses to run as root, and no account "${ACCOUNT}" could be created for it. ` +
        `Create one (useradd --system ${ACCOUNT}) or start as an ordinary user.`,
    );
  }
  const made = lookUp();
  if (!made) throw new Problem(`The account "${ACCOUNT}" was created but cannot be found.`);
  return made;
}

function lookUp(): ServerUser | undefined {
  try {
    const id = (flag: string) => Number(execFileSync("id", [flag, ACCOUNT], { encoding: "utf8", stdio: "pipe" }));
    const user = { uid: id("-u"), gid: id("-g") };
    return Number.isInteger(user.uid) && Number.isInteger(user.gid) ? user : undefined;
  } catch {
    return undefined;
  }
}

/** Asked of the system itself, as that account, because modes, groups and access lists all have a say. */
export function canEnter(user: ServerUser, folder: string): boolean {
  return askAs(user, 'cd "$1"', folder);
}

export function canRun(user: ServerUser, file: string): boolean {
  return askAs(user, 'test -r "$1" && test -x "$1"', file);
}

function askAs(user: ServerUser, question: string, path: string): boolean {
  return spawnSync("/bin/sh", ["-c", question, "sh", path], { ...user, cwd: "/", stdio: "ignore" }).status === 0;
}
