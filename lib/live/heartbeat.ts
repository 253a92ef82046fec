import { randomUUID } from "node:crypto";

export interface HeartbeatOptions {
  everyMs: number;
  send: (payload: string) => Promise<void>;
  /** The beat went through the database and came back. */
  onReturn: () => void;
  /** The last beat has not come back by the time of the next one. */
  onLost: (reason: Error) => void;
}

/** Many streams may open in one moment (a server came back): one beat proves for all of them. */
const TOGETHER_MS = 200;

/** Proves, beat by beat, that a notice sent now would arrive: a connection can look alive while nothing comes through it. */
export class Heartbeat {
  readonly #options: HeartbeatOptions;
  readonly #instance: string = randomUUID();
  #n = 0;
  #returned = 0;
  #sentAt = Number.NEGATIVE_INFINITY;
  #timer: NodeJS.Timeout | undefined;
  #waiting: { from: number; resolve: () => void }[] = [];

  constructor(options: HeartbeatOptions) {
    this.#options = options;
  }

  /** Starts again from a connection that is new: what an old one owed is forgotten. */
  start(): void {
    this.stop();
    this.#returned = this.#n;
    this.#beat();
    this.#timer = setInterval(() => this.#next(), this.#options.everyMs);
    this.#timer.unref();
  }

  stop(): void {
    clearInterval(this.#timer);
  }

  /** Resolves once a beat, sent now or a moment ago, has come back; while nothing is heard, it waits. */
  async prove(): Promise<void> {
    if (performance.now() - this.#sentAt > TOGETHER_MS) this.#beat();
    else if (this.#returned === this.#n) return;
    await new Promise<void>((resolve) => this.#waiting.push({ from: this.#n, resolve }));
  }

  heard({ beat, n }: { beat: string; n: number }): void {
    if (beat !== this.#instance || n !== this.#n) return;
    this.#returned = n;
    const proved = this.#waiting.filter(({ from }) => from <= n);
    this.#waiting = this.#waiting.filter(({ from }) => from > n);
    for (const { resolve } of proved) resolve();
    this.#options.onReturn();
  }

  #next(): void {
    if (this.#returned < this.#n) {
      this.stop();
      this.#options.onLost(new Error(`heartbeat ${this.#n} did not come back within ${this.#options.everyMs} ms`));
      return;
    }
    this.#beat();
  }

  #beat(): void {
    this.#n += 1;
    this.#sentAt = performance.now();
    // A failed send is a beat that does not come back: it is noticed there.
    this.#options.send(JSON.stringify({ beat: this.#instance, n: this.#n })).catch(() => undefined);
  }
}
