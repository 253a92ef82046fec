import { Pool } from "pg";
import { RateLimiterPostgres, type RateLimiterRes } from "rate-limiter-flexible";
import { listenerConnectionString } from "@/lib/storage/client";

export interface Limit {
  /** Counts one attempt; returns the seconds to wait when it was one too many, else 0. */
  consume(key: string): Promise<number>;
  /** Takes one attempt back. */
  giveBack(key: string): Promise<void>;
  forget(key: string): Promise<void>;
}

const shared = globalThis as { __yokeboardLimitPool?: Pool; __yokeboardClosers?: Set<() => Promise<void>> };

/** Counters live in PostgreSQL, so that several instances count together; a small pool of their own keeps them out of the commands' way. */
function pool(): Pool {
  if (!shared.__yokeboardLimitPool) {
    const made = new Pool({ connectionString: listenerConnectionString(), max: 2, allowExitOnIdle: true });
    shared.__yokeboardLimitPool = made;
    shared.__yokeboardClosers ??= new Set();
    shared.__yokeboardClosers.add(() => made.end());
  }
  return shared.__yokeboardLimitPool;
}

/** At most `points` in `seconds`; then nothing for `blockSeconds`. */
export function limitOf(name: string, points: number, seconds: number, blockSeconds: number): Limit {
  const limiter = new RateLimiterPostgres({
    storeClient: pool(),
    schemaName: "public",
    tableName: "rate_limit",
    tableCreated: true,
    keyPrefix: name,
    points,
    duration: seconds,
    blockDuration: blockSeconds,
    clearExpiredByTimeout: false,
  });
  const waiting = (result: RateLimiterRes) => Math.max(1, Math.ceil(result.msBeforeNext / 1000));
  return {
    consume: async (key) => {
      try {
        await limiter.consume(key);
        return 0;
      } catch (refusal) {
        if (refusal instanceof Error) throw refusal;
        return waiting(refusal as RateLimiterRes);
      }
    },
    giveBack: async (key) => {
      await limiter.reward(key);
    },
    forget: async (key) => {
      await limiter.delete(key);
    },
  };
}
