import { createHash } from "node:crypto";
import {
  accessSync,
  chownSync,
  constants,
  existsSync,
  mkdirSync,
  readFileSync,
  realpathSync,
  writeFileSync,
} from "node:fs";
import path from "node:path";
import { Problem } from "@/lib/cli/problem";
import { SHARED_FOLDER } from "./binaries";
import { canEnter, type ServerUser } from "./server-user";

const POINTER = "cluster-location";

/** Makes the folder if need be, and says plainly why it cannot be used. Returns its real path. */
export function openDataFolder(folder: string, user: ServerUser | undefined): string {
  try {
    // The server's account passes through to its own part; everything else inside is readable by us alone.
    mkdirSync(folder, { recursive: true, mode: user ? 0o711 : 0o700 });
    accessSync(folder, constants.R_OK | constants.W_OK | constants.X_OK);
  } catch (error) {
    const why = (error as NodeJS.ErrnoException).code;
    const reason =
      why === "EEXIST" || why === "ENOTDIR" ? "it is a file, not a folder" : `it cannot be written (${why})`;
    throw new Problem(`The data folder ${folder} cannot be used: ${reason}. Choose another with --data FOLDER.`);
  }
  return realpathSync(folder);
}

/**
 * The database's own folder. Inside the data folder, except where we are root and the server's account
 * cannot reach it: then under /var/lib, and the data folder keeps the address.
 */
export function clusterFolder(folder: string, user: ServerUser | undefined): string {
  const inside = path.join(folder, "cluster");
  const pointer = path.join(folder, POINTER);
  if (existsSync(pointer)) {
    const elsewhere = readFileSync(pointer, "utf8").trim();
    if (existsSync(path.dirname(elsewhere))) return elsewhere;
    throw new Problem(`The database of ${folder} was kept in ${elsewhere}, and that is gone. Start over with --reset.`);
  }
  if (user === undefined || canEnter(user, folder)) return inside;
  if (existsSync(inside)) {
    throw new Problem(
      `${folder} can no longer be entered by the account PostgreSQL runs under. Try: chmod o+x ${folder}`,
    );
  }
  const name = createHash("sha256").update(folder).digest("hex").slice(0, 16);
  const home = path.join(SHARED_FOLDER, `data-${name}`);
  mkdirSync(home, { recursive: true, mode: 0o711 });
  const elsewhere = path.join(home, "cluster");
  writeFileSync(pointer, `${elsewhere}\n`);
  return elsewhere;
}

/** An empty folder which only the server's account may read. */
export function makeServerFolder(folder: string, user: ServerUser | undefined): void {
  mkdirSync(folder, { mode: 0o700 });
  if (user) chownSync(folder, user.uid, user.gid);
}
