import { setTimeout as pause } from "node:timers/promises";
import type { CommandName } from "@/lib/domain/permission";
import { wallRowOf } from "@/lib/queries/wall";
import type { BoardRow } from "@/lib/schemas/board";
import type { WallEvent } from "@/lib/schemas/live";
import { type Instant, type Timestamp, timestampOf } from "@/lib/units/time";
import { BoardFeed } from "./board-feed";
import type { BoardSnapshot } from "./board-state";
import { Heartbeat } from "./heartbeat";
import { type Listener, listen } from "./listener";
import { type Change, parseNotice } from "./notice";
import type { BoardSource } from "./source";
import { sseEvent } from "./sse";
import { type Audience, type Sink, type Stream, StreamSet } from "./streams";

export interface HubOptions {
  connectionString: string;
  source: BoardSource;
  now: () => Instant;
  /** The facility an open session is in; null once it has ended. */
  facilityOfSession: (sessionId: string) => Promise<string | null>;
  /** A session's cached copy must not outlive the notice about it; null forgets all. */
  forgetSession: (sessionId: string | null) => void;
  report: (problem: unknown) => void;
  beatEveryMs?: number;
  sessionsEveryMs?: number;
  behindAtMostMs?: number;
}

const BEAT_EVERY_MS = 10_000;
const SESSIONS_EVERY_MS = 30_000;
const HELLO_AGAIN_AFTER_MS = 1_000;
/** A feed that is further behind than this gets no beats: its screens would call old rows live. */
const BEHIND_AT_MOST_MS = 5_000;
/** Commands after which somebody may no longer be who the cached session says. */
const CHANGES_PEOPLE: ReadonlySet<string> = new Set<CommandName>([
  "change-roles",
  "set-password",
  "add-facility",
  "import-department",
  "set-site",
]);

/** Notices in, events out: one of these per instance. */
export class Hub {
  readonly #options: HubOptions;
  readonly #streams = new StreamSet();
  readonly #feeds = new Map<string, BoardFeed>();
  readonly #listener: Listener;
  readonly #heartbeat: Heartbeat;
  readonly #sweep: NodeJS.Timeout;
  #closed = false;

  constructor(options: HubOptions) {
    this.#options = options;
    this.#heartbeat = new Heartbeat({
      everyMs: options.beatEveryMs ?? BEAT_EVERY_MS,
      send: (payload) => this.#listener.send(payload),
      onReturn: () => this.#forwardBeat(),
      onLost: (reason) => this.#listener.renew(reason),
    });
    this.#listener = listen({
      connectionString: options.connectionString,
      onPayload: (payload) => this.#hear(payload),
      onUp: () => this.#onUp(),
      onDown: (reason) => this.#onDown(reason),
    });
    this.#sweep = setInterval(() => void this.#endStaleSessions(), options.sessionsEveryMs ?? SESSIONS_EVERY_MS);
    this.#sweep.unref();
  }

  /** Opens a stream; the returned function is for the side that has gone. */
  subscribe(facilityId: string, sessionId: string, sink: Sink, audience: Audience = "staff"): () => void {
    const stream = this.#streams.add(facilityId, sessionId, sink, audience);
    if (this.#closed) this.#streams.drop(stream);
    else void this.#greet(stream);
    return () => this.#streams.drop(stream);
  }

  /** The facility's board as it stands, ready to send. While nothing is heard from the database, each asking reads it anew. */
  snapshot(facilityId: string): Promise<BoardSnapshot> {
    const feed = this.#feed(facilityId);
    if (!this.#listener.isUp()) feed.lostTrack();
    return feed.snapshot();
  }

  closeStreams(): void {
    this.#closed = true;
    this.#streams.closeAll();
  }

  async close(): Promise<void> {
    this.closeStreams();
    clearInterval(this.#sweep);
    this.#heartbeat.stop();
    for (const feed of this.#feeds.values()) feed.close();
    await this.#listener.close();
  }

  #feed(facilityId: string): BoardFeed {
    const known = this.#feeds.get(facilityId);
    if (known) return known;
    const { source, now, report } = this.#options;
    const feed = new BoardFeed({
      facilityId,
      source,
      now,
      report,
      publish: (event, all) => {
        this.#streams.send(facilityId, "rows", event, event.sequence);
        if (this.#streams.isWatched(facilityId, "wall"))
          this.#streams.send(facilityId, "wall", wallEvent(facilityId, event.sequence, event.at, all), event.sequence);
      },
      isWatched: () => this.#streams.isWatched(facilityId),
    });
    this.#feeds.set(facilityId, feed);
    return feed;
  }

  /** Hello is said once a beat has proved that changes arrive, and the board is known: from then on nothing can be missed. */
  async #greet(stream: Stream): Promise<void> {
    const feed = this.#feed(stream.facilityId);
    while (!stream.ended) {
      try {
        await this.#heartbeat.prove();
        await feed.settle();
        if (this.#listener.isUp() && !stream.ended) return this.#sayHello(stream, feed);
      } catch (problem) {
        this.#options.report(problem);
      }
      await pause(HELLO_AGAIN_AFTER_MS, undefined, { ref: false });
    }
  }

  #sayHello(stream: Stream, { sequence, rooms }: BoardFeed): void {
    stream.open = true;
    const at = timestampOf(this.#options.now());
    stream.sink.send(sseEvent("hello", { facility: stream.facilityId, sequence, at }, sequence));
    if (stream.audience === "wall")
      stream.sink.send(sseEvent("wall", wallEvent(stream.facilityId, sequence, at, rooms), sequence));
  }

  #hear(payload: string): void {
    const notice = parseNotice(payload);
    if (!notice) return;
    if (notice.beat) this.#heartbeat.heard(notice.beat);
    if (notice.change) this.#take(notice.change);
    if (notice.endedSession) {
      this.#options.forgetSession(notice.endedSession);
      this.#streams.keepSessionIn(notice.endedSession, null);
    }
  }

  #take(change: Change): void {
    this.#feeds.get(change.facility)?.changed(change);
    if (!CHANGES_PEOPLE.has(change.command)) return;
    this.#options.forgetSession(null);
    void this.#endStaleSessions();
  }

  #onUp(): void {
    // What was sent while nobody listened is gone: every board is read again.
    for (const feed of this.#feeds.values()) feed.lostTrack();
    this.#options.forgetSession(null);
    this.#heartbeat.start();
    void this.#endStaleSessions();
  }

  #onDown(reason: Error): void {
    this.#heartbeat.stop();
    if (!this.#closed) this.#options.report(reason);
  }

  #forwardBeat(): void {
    const at = timestampOf(this.#options.now());
    const behindAtMost = this.#options.behindAtMostMs ?? BEHIND_AT_MOST_MS;
    for (const [facilityId, feed] of this.#feeds) {
      if (feed.behindFor() <= behindAtMost) this.#streams.send(facilityId, "beat", { at });
    }
  }

  /** Sessions also end by running out, which nobody announces. */
  async #endStaleSessions(): Promise<void> {
    for (const sessionId of this.#streams.sessions()) {
      try {
        this.#streams.keepSessionIn(sessionId, await this.#options.facilityOfSession(sessionId));
      } catch (problem) {
        this.#options.report(problem);
      }
    }
  }
}

function wallEvent(facility: string, sequence: number, at: Timestamp, rooms: readonly BoardRow[]): WallEvent {
  return { facility, sequence, at, rooms: rooms.map(wallRowOf) };
}
