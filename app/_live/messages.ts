import type { LiveEvents } from "@/lib/schemas/live";

export const EVENT_NAMES = ["hello", "rows", "wall", "beat", "ended"] as const satisfies readonly (keyof LiveEvents)[];

/** One event of the stream on its way to the tabs of this browser. */
export type LiveMessage = {
  [Name in keyof LiveEvents]: {
    readonly name: Name;
    readonly data: LiveEvents[Name];
    /** How long ago it came in, in milliseconds: a tab that joins late is told what was last heard. */
    readonly ageMs: number;
  };
}[keyof LiveEvents];

export type OnMessage = (message: LiveMessage) => void;

/** Whatever brings the messages to this tab: a worker, another tab, or a stream of its own. */
export interface Connection {
  /** Opens the stream anew: after sleep, after the network came back. */
  renew(): void;
  close(): void;
}
