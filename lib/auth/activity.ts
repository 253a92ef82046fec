import { type Actor, scopeOf } from "@/lib/auth/actor";
import { appDatabase, type Database } from "@/lib/storage/client";
import { sessionWasActive } from "@/lib/storage/session-locks";
import { instant } from "@/lib/units/time";

/** Often enough for a period that is counted in minutes. */
const NOTED_EVERY = 60_000;
const MOST_KEPT = 5_000;
const shared = globalThis as { __yokeboardActive?: Map<string, number> };

/** Whoever writes is there: the continuous period in which one component is enough for a signature goes on. */
export async function noteActivity(actor: Actor, database: Database = appDatabase()): Promise<void> {
  const { sessionId } = actor;
  if (!sessionId) return;
  shared.__yokeboardActive ??= new Map();
  const at = Date.now();
  if (at - (shared.__yokeboardActive.get(sessionId) ?? 0) < NOTED_EVERY) return;
  if (shared.__yokeboardActive.size >= MOST_KEPT) shared.__yokeboardActive.clear();
  shared.__yokeboardActive.set(sessionId, at);
  await database.inScope(scopeOf(actor), (tx) => sessionWasActive(tx, sessionId, instant(at), false));
}
