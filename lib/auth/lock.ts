import { type Actor, scopeOf } from "@/lib/auth/actor";
import { type GivenSecret, secretMatches } from "@/lib/auth/secret";
import { forgetSession } from "@/lib/auth/session";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { appDatabase, type Database } from "@/lib/storage/client";
import { comeInto, lockSession, type OnDevice, sessionsOnDevice, unlockSession } from "@/lib/storage/session-locks";
import { instant } from "@/lib/units/time";

type UnlockRefusal = "signature-wrong" | "too-many" | "sign-in-required";

/** Locks the session behind a screen that was left, or that is handed on. */
export async function lock(actor: Actor, database: Database = appDatabase()): Promise<void> {
  const { sessionId } = actor;
  if (!sessionId) return;
  await database.inScope(scopeOf(actor), (tx) => lockSession(tx, sessionId, instant(Date.now())));
  forgetSession(sessionId);
}

/** One secret of the same person opens the screen again; the next signature then asks for both components. */
export async function unlock(
  actor: Actor,
  secret: GivenSecret,
  device: string,
  database: Database = appDatabase(),
): Promise<Outcome<{ readonly locked: false }, UnlockRefusal>> {
  const { sessionId } = actor;
  if (!sessionId) return ended();
  const right = await secretMatches({ ...scopeOf(actor), ...actor }, secret, device, database);
  if (!right.ok) return right;
  const unlocked = await database.inScope(scopeOf(actor), (tx) => unlockSession(tx, sessionId, instant(Date.now())));
  forgetSession(sessionId);
  return unlocked ? done({ locked: false }) : ended();
}

const ended = () => refused("sign-in-required", "Your session has ended. Sign in again.");

export const peopleOnDevice = (deviceHash: string | null, database: Database = appDatabase()): Promise<OnDevice[]> =>
  deviceHash === null ? Promise.resolve([]) : sessionsOnDevice(database, deviceHash);

/** Hands a shared screen to somebody whose session is open in the same browser: their PIN unlocks theirs and locks everybody else's. */
export async function switchPerson(
  userId: string,
  pin: string,
  browser: { readonly hash: string | null; readonly device: string },
  database: Database = appDatabase(),
): Promise<Outcome<OnDevice, UnlockRefusal>> {
  const wanted = userId.trim().toLowerCase();
  const { hash } = browser;
  const known = (await peopleOnDevice(hash, database)).find((person) => person.userId === wanted);
  if (!known || hash === null)
    return refused("sign-in-required", "Nobody of this name has signed in here today. Sign in with the password.");
  const right = await secretMatches(known, { kind: "pin", value: pin }, browser.device, database);
  if (!right.ok) return right;
  const at = instant(Date.now());
  const opened = await database.inScope(known, async (tx) => {
    await comeInto(tx, { id: known.sessionId, personId: known.personId, deviceHash: hash, at });
    return unlockSession(tx, known.sessionId, at);
  });
  forgetSession(null);
  return opened ? done(known) : ended();
}
