import { hash, verify } from "@node-rs/argon2";

/** argon2id with the parameters OWASP names first in its password storage cheat sheet (19 MiB, 2 passes, 1 lane; from memory). */
const PARAMETERS = { memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;

export const hashPassword = (plain: string): Promise<string> => hash(plain, PARAMETERS);

export async function passwordMatches(stored: string, plain: string): Promise<boolean> {
  try {
    return await verify(stored, plain);
  } catch {
    return false;
  }
}

/** A hash of nothing anybody knows: an unknown user id costs the same time as a wrong password. */
let decoy: Promise<string> | null = null;
export function decoyHash(): Promise<string> {
  decoy ??= hashPassword(`nobody ${Math.random()} ${Date.now()}`);
  return decoy;
}
