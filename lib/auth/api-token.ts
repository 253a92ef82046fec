import { createHash } from "node:crypto";
import type { Actor } from "@/lib/auth/actor";
import { API_TOKEN } from "@/lib/schemas/access";
import { appDatabase, type Database } from "@/lib/storage/client";
import { type FoundToken, findToken, tokenUsed } from "@/lib/storage/tokens";
import type { Instant } from "@/lib/units/time";

/** Programs ask often; a notice about a token drops it at once, and its person's roles are read again for every command. */
const KEPT_FOR = 5_000;
const MOST_KEPT = 1_000;
const USED_EVERY = 60_000;

interface Kept {
  readonly token: FoundToken | null;
  readonly at: number;
}
const shared = globalThis as {
  __yokeboardTokenActors?: Map<string, Kept>;
  __yokeboardTokensUsed?: Map<string, number>;
};
const cache = (): Map<string, Kept> => {
  shared.__yokeboardTokenActors ??= new Map();
  return shared.__yokeboardTokenActors;
};
const used = (): Map<string, number> => {
  shared.__yokeboardTokensUsed ??= new Map();
  return shared.__yokeboardTokensUsed;
};

/** Drops one token from the cache, or all: it may have been revoked, or its person's roles have changed. */
export function forgetToken(tokenId: string | null): void {
  for (const [hash, { token }] of cache()) if (tokenId === null || token?.tokenId === tokenId) cache().delete(hash);
}

/** The token in an Authorization header; null without one. */
export function bearerIn(header: string | null): string | null {
  const [, token] = /^Bearer +(\S+)$/i.exec(header ?? "") ?? [];
  return token ?? null;
}

/** Who acts with a token: its person, and never more than it was issued for. `now` is the facility's clock. */
export async function actorOfToken(
  token: string,
  now: () => Instant,
  database: Database = appDatabase(),
): Promise<Actor | null> {
  if (!API_TOKEN.test(token)) return null;
  const hash = createHash("sha256").update(token, "utf8").digest("hex");
  const found = await lookUp(hash, now, database);
  if (!found) return null;
  await remember(found.tokenId, now, database);
  return {
    kind: "token",
    personId: found.personId,
    name: found.name,
    userId: found.userId,
    roles: found.roles,
    organisationId: found.organisationId,
    facility: found.facility,
    facilities: [],
    sessionId: null,
    token: { id: found.tokenId, name: found.tokenName, reads: found.reads, commands: found.commands },
  };
}

async function lookUp(hash: string, now: () => Instant, database: Database): Promise<FoundToken | null> {
  const kept = cache().get(hash);
  // Real time, not the facility's clock, as for sessions.
  const at = Date.now();
  if (kept && at - kept.at < KEPT_FOR) return kept.token;
  const token = await findToken(database, hash, now());
  if (cache().size >= MOST_KEPT) cache().clear();
  cache().set(hash, { token, at });
  return token;
}

async function remember(tokenId: string, now: () => Instant, database: Database): Promise<void> {
  const at = Date.now();
  if (at - (used().get(tokenId) ?? 0) < USED_EVERY) return;
  if (used().size >= MOST_KEPT) used().clear();
  used().set(tokenId, at);
  await tokenUsed(database, tokenId, now());
}
