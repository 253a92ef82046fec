import { sessionHasEnded } from "@/app/_parts/sign-in-again.client";
import type { LiveEvents } from "@/lib/schemas/live";
import { connect } from "./connect.client";
import type { Connection, LiveMessage, OnMessage } from "./messages";
import { ServerClock } from "./server-clock";

export type LiveStatus = { readonly state: "live" } | { readonly state: "not-live"; readonly since: number };
export type ChangeEvent =
  | { readonly name: "hello"; readonly data: LiveEvents["hello"] }
  | { readonly name: "rows"; readonly data: LiveEvents["rows"] }
  | { readonly name: "wall"; readonly data: LiveEvents["wall"] };

export const LIVE: LiveStatus = { state: "live" };

/** No beat for so long, and the screen says within thirty seconds that it is not live. */
export const SILENT_AT_MOST_MS = 25_000;
const LOOK_EVERY_MS = 5_000;
/** The monotonic counter stands still while a device sleeps, its wall clock does not: apart by more than this, it slept. */
const SLEPT_MS = 4_000;
/** A hello after a longer silence than between two beats follows a break; another tab's welcome does not. */
const BREAK_MS = 12_000;
/** Changes that arrived while a page was on its way to the screen. */
const KEEP_MS = 5_000;

/** How a tab is connected, and what it does when the server ends its stream because nobody is signed in any more. */
export interface LiveMeans {
  readonly connect: (facilityId: string, onMessage: OnMessage) => Connection;
  readonly sessionHasEnded: () => void;
}

/** What this tab knows of the live connection. One for each tab, kept by the provider. */
export class LiveStore {
  readonly clock = new ServerClock();
  readonly #facilityId: string;
  readonly #means: LiveMeans;
  readonly #watchers = new Set<() => void>();
  readonly #hearers = new Set<(event: ChangeEvent) => void>();
  #connection: Connection | null = null;
  #status: LiveStatus = LIVE;
  #recent: { event: ChangeEvent; heardAt: number }[] = [];
  #heardAt = 0;
  #lastKnown = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #looking: ReturnType<typeof setInterval> | undefined;
  #drift = 0;
  #sequence = -1;

  constructor(facilityId: string, means: LiveMeans = { connect, sessionHasEnded }) {
    this.#facilityId = facilityId;
    this.#means = means;
  }

  get status(): LiveStatus {
    return this.#status;
  }

  /** Begins to count: what the page was rendered with was true just now. */
  start(): void {
    this.#drift = Date.now() - performance.now();
    this.#heardAt = performance.now();
    this.#lastKnown = this.clock.now() ?? Date.now();
    this.#looking = setInterval(this.#look, LOOK_EVERY_MS);
    document.addEventListener("visibilitychange", this.#look);
    window.addEventListener("online", this.#renew);
    window.addEventListener("pageshow", this.#onPageShow);
    window.addEventListener("pagehide", this.#disconnect);
    this.#connect();
    this.#judge();
  }

  stop(): void {
    clearInterval(this.#looking);
    clearTimeout(this.#timer);
    document.removeEventListener("visibilitychange", this.#look);
    window.removeEventListener("online", this.#renew);
    window.removeEventListener("pageshow", this.#onPageShow);
    window.removeEventListener("pagehide", this.#disconnect);
    this.#disconnect();
  }

  /** The page's own reading of the server's time, until the stream brings a better one. */
  readAt(at: number): void {
    if (this.clock.now() === null) this.clock.hear(at);
    this.#lastKnown = Math.max(this.#lastKnown, at);
  }

  watch = (watcher: () => void): (() => void) => {
    this.#watchers.add(watcher);
    return () => this.#watchers.delete(watcher);
  };

  /** Hears every change from now on, and first those of the last seconds. */
  hear(hearer: (event: ChangeEvent) => void): () => void {
    const fresh = performance.now() - KEEP_MS;
    for (const { event, heardAt } of this.#recent) if (heardAt > fresh) hearer(event);
    this.#hearers.add(hearer);
    return () => this.#hearers.delete(hearer);
  }

  /** The changes of the last seconds, oldest first: a board just fetched may be older than they are. */
  recentRows(): LiveEvents["rows"][] {
    return this.#recent.flatMap(({ event }) => (event.name === "rows" ? [event.data] : []));
  }

  #connect(): void {
    this.#connection ??= this.#means.connect(this.#facilityId, (message) => this.#receive(message));
  }

  #disconnect = (): void => {
    this.#connection?.close();
    this.#connection = null;
  };

  #renew = (): void => this.#connection?.renew();

  #onPageShow = (): void => {
    // Back from the browser's page cache, where every connection was closed.
    if (this.#connection === null) this.#connect();
    this.#look();
  };

  #receive(message: LiveMessage): void {
    if (message.name === "ended") {
      if (message.data.reason === "session-ended") this.#means.sessionHasEnded();
      this.#giveUp();
      return;
    }
    if (message.name !== "beat" && message.data.facility !== this.#facilityId) return;
    const at = Date.parse(message.data.at);
    const silentFor = performance.now() - this.#heardAt;
    this.clock.hear(at, message.ageMs);
    this.#heardAt = Math.max(this.#heardAt, performance.now() - message.ageMs);
    this.#lastKnown = at;
    if (
      message.name === "rows" ||
      message.name === "wall" ||
      (message.name === "hello" && (silentFor > BREAK_MS || message.data.sequence > this.#sequence))
    )
      this.#pass(message);
    this.#judge();
  }

  #pass(event: ChangeEvent): void {
    this.#sequence = Math.max(this.#sequence, event.data.sequence);
    const now = performance.now();
    this.#recent = [...this.#recent.filter(({ heardAt }) => heardAt > now - KEEP_MS), { event, heardAt: now }];
    for (const hearer of this.#hearers) hearer(event);
  }

  #look = (): void => {
    const drift = Date.now() - performance.now();
    if (Math.abs(drift - this.#drift) > SLEPT_MS) {
      // Nobody knows how long it slept.
      this.#giveUp();
      this.#renew();
    }
    this.#drift = drift;
    this.#judge();
  };

  /** Not live until something is heard again. */
  #giveUp(): void {
    this.#heardAt = performance.now() - SILENT_AT_MOST_MS;
    this.#judge();
  }

  #judge(): void {
    clearTimeout(this.#timer);
    const left = this.#heardAt + SILENT_AT_MOST_MS - performance.now();
    if (left > 0) {
      this.#timer = setTimeout(() => this.#judge(), left + 1);
      this.#become(LIVE);
    } else if (this.#status.state === "live") {
      this.#become({ state: "not-live", since: this.#lastKnown });
    }
  }

  #become(status: LiveStatus): void {
    if (status === this.#status) return;
    this.#status = status;
    for (const watcher of this.#watchers) watcher();
  }
}
