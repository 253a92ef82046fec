import { randomBytes } from "node:crypto";
import { existsSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import path from "node:path";

/** Made once for a data folder and readable by its owner alone. */
export interface Passwords {
  readonly superuser: string;
  readonly owner: string;
  readonly app: string;
}

export function keepPasswords(folder: string): Passwords {
  const file = path.join(folder, "passwords.json");
  if (existsSync(file)) return JSON.parse(readFileSync(file, "utf8")) as Passwords;
  const made = { superuser: newSecret(), owner: newSecret(), app: newSecret() };
  writePrivately(file, `${JSON.stringify(made, null, 2)}\n`);
  return made;
}

/** A secret kept in a file of its own, made at the first call. */
export function keepSecret(folder: string, name: string): string {
  const file = path.join(folder, name);
  if (existsSync(file)) return readFileSync(file, "utf8").trim();
  const made = newSecret();
  writePrivately(file, `${made}\n`);
  return made;
}

/** Written aside and renamed, so that a killed run never leaves half a file behind. */
export function writePrivately(file: string, text: string): void {
  const aside = `${file}.${process.pid}`;
  writeFileSync(aside, text, { mode: 0o600 });
  renameSync(aside, file);
}

function newSecret(): string {
  return randomBytes(32).toString("base64url");
}
