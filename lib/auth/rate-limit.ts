import { type Limit, limitOf } from "@/lib/storage/attempts";

/**
 * Attempts to sign in. Ten failures on one device lock that person there for a quarter of an hour; fifty from anywhere lock the
 * user id for as long. Never by address alone: a whole hospital may share one. Common practice, no source.
 */
export interface AttemptLimits {
  heldFor(userId: string, device: string): Promise<number>;
  failed(userId: string, device: string): Promise<void>;
  succeeded(userId: string, device: string): Promise<void>;
}

const QUARTER_HOUR = 15 * 60;
const shared = globalThis as { __yokeboardAttempts?: AttemptLimits; __yokeboardRequests?: Limit };

export function attemptLimits(): AttemptLimits {
  shared.__yokeboardAttempts ??= made();
  return shared.__yokeboardAttempts;
}

function made(): AttemptLimits {
  const onDevice = limitOf("sign-in-device", 10, QUARTER_HOUR, QUARTER_HOUR);
  const anywhere = limitOf("sign-in-person", 50, QUARTER_HOUR, QUARTER_HOUR);
  const both = (userId: string, device: string) => `${userId}|${device}`.slice(0, 200);
  return {
    heldFor: async (userId, device) =>
      Math.max(await onDevice.heldFor(both(userId, device)), await anywhere.heldFor(userId.slice(0, 200))),
    failed: async (userId, device) => {
      await Promise.all([onDevice.consume(both(userId, device)), anywhere.consume(userId.slice(0, 200))]);
    },
    succeeded: (userId, device) => onDevice.forget(both(userId, device)),
  };
}
