import { limitOf } from "@/lib/storage/attempts";

/**
 * Attempts to sign in. Ten failures on one device lock that person there for a quarter of an hour; fifty from anywhere lock the
 * user id for as long. Never by address alone: a whole hospital may share one. Common practice, no source.
 */
export interface AttemptLimits {
  /** Counts an attempt before the password is looked at, so that many at once are no way around. Returns the seconds to wait, or 0. */
  attempt(userId: string, device: string): Promise<number>;
  /** The password was right: it was no failure. */
  succeeded(userId: string, device: string): Promise<void>;
}

const QUARTER_HOUR = 15 * 60;
const shared = globalThis as { __yokeboardAttempts?: AttemptLimits };

export function attemptLimits(): AttemptLimits {
  shared.__yokeboardAttempts ??= made();
  return shared.__yokeboardAttempts;
}

function made(): AttemptLimits {
  const onDevice = limitOf("sign-in-device", 10, QUARTER_HOUR, QUARTER_HOUR);
  const anywhere = limitOf("sign-in-person", 50, QUARTER_HOUR, QUARTER_HOUR);
  const both = (userId: string, device: string) => `${userId}|${device}`.slice(0, 200);
  const person = (userId: string) => userId.slice(0, 200);
  return {
    // A device that is locked counts no further: it must not lock its person everywhere.
    attempt: async (userId, device) =>
      (await onDevice.consume(both(userId, device))) || (await anywhere.consume(person(userId))),
    succeeded: async (userId, device) => {
      await Promise.all([onDevice.forget(both(userId, device)), anywhere.giveBack(person(userId))]);
    },
  };
}
