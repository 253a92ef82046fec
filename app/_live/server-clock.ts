/**
 * The server's time, kept by the device's monotonic counter: the device's own clock may be wrong, and screens turn over by the server's.
 * What arrives is late by the way it took, never early; so of near estimates the latest is the best.
 */
const NEAR_MS = 2_000;

export class ServerClock {
  #offset: number | null = null;

  /** `at` was the server's time `ageMs` ago. */
  hear(at: number, ageMs = 0): void {
    const offset = at + ageMs - performance.now();
    const near = this.#offset !== null && Math.abs(offset - this.#offset) < NEAR_MS;
    this.#offset = near ? Math.max(offset, this.#offset ?? offset) : offset;
  }

  /** Milliseconds since 1970, or null before anything was heard. */
  now(): number | null {
    return this.#offset === null ? null : this.#offset + performance.now();
  }
}
