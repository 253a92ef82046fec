import type { EndedEvent, LiveEvents } from "@/lib/schemas/live";
import { sseEvent } from "./sse";

/** Who looks: staff at their own screens, or whoever passes a wall. */
export type Audience = "staff" | "wall";

/** Rooms are told to each audience in its own form; everything else to both. */
const TOLD_ONLY_TO: Partial<Record<keyof LiveEvents, Audience>> = { rows: "staff", wall: "wall" };

/** Where a stream's bytes go. */
export interface Sink {
  send(chunk: Uint8Array): void;
  close(): void;
}

export interface Stream {
  readonly facilityId: string;
  readonly sessionId: string;
  readonly sink: Sink;
  readonly audience: Audience;
  /** Has said hello; before that it gets nothing. */
  open: boolean;
  ended: boolean;
}

/** A browser needs one; devices without shared workers or locks one a tab. */
export const MOST_STREAMS_A_SESSION = 8;

/** The open streams of this instance. */
export class StreamSet {
  readonly #streams = new Set<Stream>();

  /** Adds one; of too many in a session the oldest gives way, because it is the likeliest to have nobody behind it. */
  add(facilityId: string, sessionId: string, sink: Sink, audience: Audience = "staff"): Stream {
    const stream: Stream = { facilityId, sessionId, sink, audience, open: false, ended: false };
    const others = [...this.#streams].filter((other) => other.sessionId === sessionId);
    for (const oldest of others.slice(0, Math.max(0, others.length + 1 - MOST_STREAMS_A_SESSION))) {
      this.end(oldest, "too-many-streams");
    }
    this.#streams.add(stream);
    return stream;
  }

  isWatched(facilityId: string, by: Audience | "anybody" = "anybody"): boolean {
    for (const { facilityId: watched, audience } of this.#streams)
      if (watched === facilityId && (by === "anybody" || audience === by)) return true;
    return false;
  }

  sessions(): string[] {
    return [...new Set([...this.#streams].map(({ sessionId }) => sessionId))];
  }

  /** Serialised once, however many watch. */
  send<Name extends keyof LiveEvents>(facilityId: string, name: Name, data: LiveEvents[Name], sequence?: number): void {
    const chunk = sseEvent(name, data, sequence);
    const only = TOLD_ONLY_TO[name];
    for (const stream of this.#streams) {
      if (stream.open && stream.facilityId === facilityId && (only ?? stream.audience) === stream.audience)
        stream.sink.send(chunk);
    }
  }

  /** Ends a session's streams unless they are of the facility it is in: it may have ended, or gone to another. */
  keepSessionIn(sessionId: string, facilityId: string | null): void {
    for (const stream of this.#streams) {
      if (stream.sessionId === sessionId && stream.facilityId !== facilityId) this.end(stream, "session-ended");
    }
  }

  end(stream: Stream, reason: EndedEvent["reason"]): void {
    if (!stream.ended) stream.sink.send(sseEvent("ended", { reason }));
    this.drop(stream);
  }

  /** The other side has gone. */
  drop(stream: Stream): void {
    this.#streams.delete(stream);
    if (stream.ended) return;
    stream.ended = true;
    stream.sink.close();
  }

  closeAll(): void {
    for (const stream of this.#streams) this.drop(stream);
  }
}
