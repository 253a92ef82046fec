export interface Leadership {
  /** Takes the lock from a holder that does not answer. */
  take(): void;
  leave(): void;
}

const AFTER_REFUSAL_MS = 1_000;

/** Queues for a lock that one tab of the browser holds at a time; `onLead` when it is this one's, `onEnd` when it no longer is. */
export function joinLeadership(name: string, { onLead, onEnd }: { onLead: () => void; onEnd: () => void }): Leadership {
  let left = false;
  let steal = false;
  let waiting = new AbortController();
  let resign: () => void = () => undefined;

  const hold = () =>
    new Promise<void>((resolve) => {
      resign = resolve;
      onLead();
    });

  const queue = async () => {
    while (!left) {
      waiting = new AbortController();
      const options: LockOptions = steal ? { steal: true } : { signal: waiting.signal };
      steal = false;
      try {
        await navigator.locks.request(name, options, hold);
      } catch {
        // Taken by another tab, or called back to take it. Anything else must not become a busy loop.
        if (!left && !steal) await new Promise((resolve) => setTimeout(resolve, AFTER_REFUSAL_MS));
      }
      onEnd();
    }
  };

  void queue();
  return {
    take: () => {
      steal = true;
      waiting.abort();
    },
    leave: () => {
      left = true;
      waiting.abort();
      resign();
    },
  };
}
