import type { Actor } from "@/lib/auth/actor";
import { type Limit, limitOf } from "@/lib/storage/attempts";

/**
 * How often somebody may write, and ask for what is dear to answer, in a minute. Each instance lets the first few pass by its own
 * count; only who goes beyond them is counted in the database, together with every other instance. So an ordinary morning costs
 * nothing, and a script that runs wild is stopped whichever instance it asks. Common practice, no source.
 */
const KINDS = {
  write: { free: 120, counted: 480 },
  "dear-read": { free: 20, counted: 40 },
} as const;
export type RequestKind = keyof typeof KINDS;

const MINUTE_SECONDS = 60;
const MOST_KEPT = 10_000;

interface Local {
  readonly since: number;
  count: number;
}
const shared = globalThis as {
  __yokeboardRequestCounts?: Map<string, Local>;
  __yokeboardRequestLimits?: Map<RequestKind, Limit>;
};

/** The seconds to wait, or 0. */
export async function requestWait(kind: RequestKind, actor: Actor, nowMs: number = Date.now()): Promise<number> {
  const key = actor.token ? `token:${actor.token.id}` : `person:${actor.personId}`;
  if (countHere(`${kind}:${key}`, nowMs) <= KINDS[kind].free) return 0;
  return limit(kind).consume(key);
}

function countHere(key: string, nowMs: number): number {
  shared.__yokeboardRequestCounts ??= new Map();
  const counts = shared.__yokeboardRequestCounts;
  const known = counts.get(key);
  if (known && nowMs - known.since < MINUTE_SECONDS * 1000) {
    known.count += 1;
    return known.count;
  }
  if (counts.size >= MOST_KEPT) counts.clear();
  counts.set(key, { since: nowMs, count: 1 });
  return 1;
}

function limit(kind: RequestKind): Limit {
  shared.__yokeboardRequestLimits ??= new Map();
  const known = shared.__yokeboardRequestLimits.get(kind);
  if (known) return known;
  const made = limitOf(kind, KINDS[kind].counted, MINUTE_SECONDS, MINUTE_SECONDS);
  shared.__yokeboardRequestLimits.set(kind, made);
  return made;
}
