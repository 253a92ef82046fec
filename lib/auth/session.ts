import type { Actor } from "@/lib/auth/actor";
import { accessOf } from "@/lib/domain/access/model";
import { appDatabase, type Database } from "@/lib/storage/client";
import { findSession, type SessionRecord } from "@/lib/storage/sessions";

/** Sessions are looked up a few seconds apart, and at once after a notice that names them: a look-up per request costs a third of a route. */
const KEPT_FOR = 5_000;
const MOST_KEPT = 5_000;

interface Kept {
  readonly record: SessionRecord | null;
  readonly at: number;
}

const shared = globalThis as { __yokeboardSessions?: Map<string, Kept> };

function cache(): Map<string, Kept> {
  shared.__yokeboardSessions ??= new Map();
  return shared.__yokeboardSessions;
}

/** Drops one session from the cache, or all of them: after sign-out, a lock, a change of roles or of facility. */
export function forgetSession(sessionId: string | null): void {
  if (sessionId === null) cache().clear();
  else cache().delete(sessionId);
}

async function lookUp(sessionId: string, database: Database): Promise<SessionRecord | null> {
  const kept = cache().get(sessionId);
  // Real time, not the facility's clock: how long somebody stays signed in has nothing to do with the day on the board.
  const now = Date.now();
  if (kept && now - kept.at < KEPT_FOR) return kept.record;
  const record = await findSession(database, sessionId);
  if (cache().size >= MOST_KEPT) cache().clear();
  cache().set(sessionId, { record, at: now });
  return record;
}

/** The person behind an open session; null when it ended, ran out, or never was. */
export async function actorOfSession(sessionId: string, database: Database = appDatabase()): Promise<Actor | null> {
  const record = await lookUp(sessionId, database);
  if (!record || record.expiresAt <= Date.now()) return null;
  return actorOfRecord(record);
}

export function actorOfRecord(record: SessionRecord): Actor {
  const { signing, idleMinutes } = accessOf(record.access);
  return {
    kind: "person",
    personId: record.personId,
    name: record.name,
    userId: record.userId,
    roles: record.roles,
    organisationId: record.organisationId,
    facility: record.facility,
    facilities: record.facilities,
    sessionId: record.sessionId,
    session: {
      locked: record.lockedAt !== null,
      signing,
      idleMinutes,
      hasPin: record.hasPin,
      hasPassword: record.hasPassword,
      method: record.method,
      createdAt: record.createdAt,
      deviceHash: record.deviceHash,
    },
  };
}
