import { randomUUID } from "node:crypto";
import { decoyHash, passwordMatches } from "@/lib/auth/password";
import { type AttemptLimits, attemptLimits } from "@/lib/auth/rate-limit";
import { forgetSession } from "@/lib/auth/session";
import { userId as userIdShape } from "@/lib/schemas/set-up";
import { appDatabase, type Database } from "@/lib/storage/client";
import { comeInto } from "@/lib/storage/session-locks";
import { endSession, insertSession, moveSession, type SignInMethod, signInRecord } from "@/lib/storage/sessions";
import { HOUR, instant, later } from "@/lib/units/time";

/** A working shift and its overlap. */
const SESSION_LENGTH = 14 * HOUR;

export type SignIn =
  | { readonly ok: true; readonly sessionId: string; readonly personId: string; readonly name: string }
  | { readonly ok: false; readonly reason: "wrong" | "too-many" | "no-facility"; readonly retryAfterSeconds?: number };

/**
 * User id and password to an open session. Whoever is wrong is told the same, whether the id exists or not, in the same time.
 * Attempts are limited per user id and per user id and device, never per address alone: a hospital shares one.
 */
export async function signIn(
  userId: string,
  password: string,
  device: string,
  database: Database = appDatabase(),
  limits: AttemptLimits = attemptLimits(),
  browser: string | null = null,
): Promise<SignIn> {
  const asked = userIdShape.safeParse(userId);
  if (!asked.success) {
    // Nobody can have such an id; the answer takes as long as any other.
    await passwordMatches(await decoyHash(), password);
    return { ok: false, reason: "wrong" };
  }
  const name = asked.data;
  const held = await limits.attempt(name, device);
  if (held > 0) return { ok: false, reason: "too-many", retryAfterSeconds: held };
  const record = await signInRecord(database, name);
  const matches = await passwordMatches(record?.passwordHash ?? (await decoyHash()), password);
  if (!record?.active || !matches) return { ok: false, reason: "wrong" };
  await limits.succeeded(name, device);
  return openSessionOf(record, { method: "password", browser }, database);
}

/** A session of somebody who has proved who they are: here by a password, or to an issuer. One browser shows one person at a time. */
export async function openSessionOf(
  person: {
    readonly personId: string;
    readonly organisationId: string;
    readonly name: string;
    readonly facilities: readonly { readonly id: string }[];
  },
  came: { readonly method: SignInMethod; readonly browser: string | null },
  database: Database = appDatabase(),
): Promise<SignIn> {
  const facility = person.facilities[0];
  if (!facility) return { ok: false, reason: "no-facility" };
  const now = instant(Date.now());
  const session = {
    id: randomUUID(),
    personId: person.personId,
    organisationId: person.organisationId,
    facilityId: facility.id,
    createdAt: now,
    expiresAt: later(now, SESSION_LENGTH),
    method: came.method,
    deviceHash: came.browser,
  };
  await database.inScope({ organisationId: person.organisationId, facilityId: facility.id }, async (tx) => {
    await insertSession(tx, session);
    const { id, personId } = session;
    if (came.browser) await comeInto(tx, { id, personId, deviceHash: came.browser, at: now });
  });
  if (came.browser) forgetSession(null);
  return { ok: true, sessionId: session.id, personId: person.personId, name: person.name };
}

export async function signOut(
  session: { readonly sessionId: string; readonly organisationId: string; readonly facilityId: string },
  database: Database = appDatabase(),
): Promise<void> {
  await database.inScope(session, (tx) => endSession(tx, session.sessionId, instant(Date.now())));
  forgetSession(session.sessionId);
}

/** Moves a session to another facility in which the person has a role. */
export async function changeFacility(
  session: {
    readonly sessionId: string;
    readonly personId: string;
    readonly organisationId: string;
    readonly facilityId: string;
  },
  facilityId: string,
  database: Database = appDatabase(),
): Promise<boolean> {
  const moved = await database.inScope(session, (tx) =>
    moveSession(tx, session.sessionId, session.personId, facilityId),
  );
  forgetSession(session.sessionId);
  return moved;
}
