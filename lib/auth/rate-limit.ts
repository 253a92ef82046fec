import { limitOf } from "@/lib/storage/attempts";

/**
 * Attempts with a secret. By password: ten failures on one device lock that person there for a quarter of an hour, fifty from anywhere
 * lock the user id for as long. By PIN, which is shorter: five on one device for a quarter of an hour, twenty anywhere for a day; the
 * password goes on working. Never by address alone: a whole hospital may share one. Common practice, no source.
 */
export interface AttemptLimits {
  /** Counts an attempt before the secret is looked at, so that many at once are no way around. Returns the seconds to wait, or 0. */
  attempt(userId: string, device: string): Promise<number>;
  /** The secret was right: it was no failure. */
  succeeded(userId: string, device: string): Promise<void>;
}

interface Bounds {
  readonly name: string;
  readonly onDevice: number;
  readonly anywhere: number;
  readonly anywhereSeconds: number;
}

const QUARTER_HOUR = 15 * 60;
const DAY = 24 * 3600;
const shared = globalThis as { __yokeboardAttempts?: AttemptLimits; __yokeboardPinAttempts?: AttemptLimits };

export function attemptLimits(): AttemptLimits {
  shared.__yokeboardAttempts ??= made({
    name: "sign-in",
    onDevice: 10,
    anywhere: 50,
    anywhereSeconds: QUARTER_HOUR,
  });
  return shared.__yokeboardAttempts;
}

export function pinLimits(): AttemptLimits {
  shared.__yokeboardPinAttempts ??= made({ name: "pin", onDevice: 5, anywhere: 20, anywhereSeconds: DAY });
  return shared.__yokeboardPinAttempts;
}

function made(bounds: Bounds): AttemptLimits {
  const onDevice = limitOf(`${bounds.name}-device`, bounds.onDevice, QUARTER_HOUR, QUARTER_HOUR);
  const anywhere = limitOf(`${bounds.name}-person`, bounds.anywhere, bounds.anywhereSeconds, bounds.anywhereSeconds);
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
