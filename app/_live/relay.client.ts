import { openEventStream } from "./event-stream.client";
import type { Connection, LiveMessage, OnMessage } from "./messages";

/** The one stream of a browser, and what a tab that joins later has to be told of it. */
export class Relay implements Connection {
  readonly #stream: Connection;
  #known: { facility: string; sequence: number; at: string; heardAt: number } | null = null;
  #ended = false;

  constructor(pass: OnMessage) {
    this.#stream = openEventStream((message) => {
      this.#note(message);
      pass(message);
    });
  }

  /** The last thing known, as a hello of that age; null while the stream has not said hello. */
  welcome(): LiveMessage | null {
    if (!this.#known) return null;
    const { heardAt, ...data } = this.#known;
    return { name: "hello", data, ageMs: performance.now() - heardAt };
  }

  /**
   * A tab of another facility than the stream's, or the first after the server ended it: somebody signed in or changed facility,
   * and the stream must follow the cookie.
   */
  isPastFor(facilityId: string): boolean {
    return this.#ended || (this.#known !== null && this.#known.facility !== facilityId);
  }

  renew(): void {
    this.#known = null;
    this.#ended = false;
    this.#stream.renew();
  }

  close(): void {
    this.#stream.close();
  }

  #note({ name, data }: LiveMessage): void {
    const heardAt = performance.now();
    this.#ended = name === "ended";
    if (name === "ended") this.#known = null;
    else if (name === "hello" || name === "rows")
      this.#known = { facility: data.facility, sequence: data.sequence, at: data.at, heardAt };
    else if (this.#known) this.#known = { ...this.#known, at: data.at, heardAt };
  }
}
