import type { Instant } from "@/lib/units/time";

/** Timers count in 32 bits, and a machine may sleep: never longer than this at a time. */
const LONGEST_MS = 10 * 60_000;
/** An alarm already past rings soon, but does not become a busy loop. */
const SHORTEST_MS = 20;

/** One alarm at one instant; a new one takes the place of the last. */
export class WakeTimer {
  readonly #now: () => Instant;
  readonly #ring: () => void;
  #timer: NodeJS.Timeout | undefined;

  constructor(now: () => Instant, ring: () => void) {
    this.#now = now;
    this.#ring = ring;
  }

  /** May ring early, never late by more than the timer's own delay: the one who is woken looks at the clock. */
  setFor(at: Instant | null): void {
    this.stop();
    if (at === null) return;
    const wait = Math.min(LONGEST_MS, Math.max(SHORTEST_MS, at - this.#now() + 1));
    this.#timer = setTimeout(this.#ring, wait);
    this.#timer.unref();
  }

  stop(): void {
    clearTimeout(this.#timer);
  }
}
