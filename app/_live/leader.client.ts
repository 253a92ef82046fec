import { joinLeadership, type Leadership } from "./leadership.client";
import type { Connection, LiveMessage, OnMessage } from "./messages";
import { Relay } from "./relay.client";

/**
 * For browsers without shared workers: the tabs agree on a leader by a lock, and the leader passes on what its stream brings.
 * A phone may freeze the leader in the background while it keeps the lock; a tab in sight that hears nothing, and gets no answer
 * from the leader, takes the lock from it.
 */
const NAME = "yokeboard live";
const ASK_AFTER_MS = 14_000;
const ANSWER_WITHIN_MS = 2_000;
const LOOK_EVERY_MS = 2_000;

type BetweenTabs = { type: "message"; message: LiveMessage } | { type: "join"; facilityId: string } | { type: "renew" };

export class LeaderConnection implements Connection {
  readonly #facilityId: string;
  readonly #onMessage: OnMessage;
  readonly #channel = new BroadcastChannel(NAME);
  readonly #leadership: Leadership;
  readonly #looking: ReturnType<typeof setInterval>;
  #relay: Relay | null = null;
  #heardAt = performance.now();
  #askedAt: number | null = null;

  constructor(facilityId: string, onMessage: OnMessage) {
    this.#facilityId = facilityId;
    this.#onMessage = onMessage;
    this.#channel.onmessage = ({ data }: MessageEvent<BetweenTabs>) => this.#receive(data);
    this.#looking = setInterval(() => this.#look(), LOOK_EVERY_MS);
    this.#say({ type: "join", facilityId });
    this.#leadership = joinLeadership(NAME, { onLead: () => this.#lead(), onEnd: () => this.#follow() });
  }

  renew(): void {
    if (this.#relay) this.#relay.renew();
    else this.#say({ type: "renew" });
  }

  close(): void {
    clearInterval(this.#looking);
    this.#leadership.leave();
    this.#follow();
    this.#channel.close();
  }

  #lead(): void {
    this.#relay = new Relay((message) => {
      this.#deliver(message);
      this.#say({ type: "message", message });
    });
  }

  #follow(): void {
    this.#relay?.close();
    this.#relay = null;
  }

  #receive(said: BetweenTabs): void {
    if (said.type === "message") {
      if (!this.#relay) this.#deliver(said.message);
      return;
    }
    if (!this.#relay) return;
    if (said.type === "renew" || this.#relay.isPastFor(said.facilityId)) this.#relay.renew();
    const message = this.#relay.welcome();
    if (message) this.#say({ type: "message", message });
  }

  #deliver(message: LiveMessage): void {
    this.#heardAt = performance.now() - message.ageMs;
    this.#askedAt = null;
    this.#onMessage(message);
  }

  #look(): void {
    const now = performance.now();
    if (this.#relay || document.visibilityState !== "visible" || now - this.#heardAt < ASK_AFTER_MS) return;
    if (this.#askedAt === null) {
      this.#askedAt = now;
      this.#say({ type: "join", facilityId: this.#facilityId });
    } else if (now - this.#askedAt > ANSWER_WITHIN_MS) {
      this.#askedAt = null;
      this.#heardAt = now;
      this.#leadership.take();
    }
  }

  #say(said: BetweenTabs): void {
    this.#channel.postMessage(said);
  }
}
