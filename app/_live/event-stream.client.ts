import type { LiveEvents } from "@/lib/schemas/live";
import { type Connection, EVENT_NAMES, type LiveMessage, type OnMessage } from "./messages";

export const STAFF_EVENTS = "/api/v1/events";
/** Beats come every ten seconds. A stream silent for longer than this is opened again: a phone that changed networks hears no error. */
const SILENT_AT_MOST_MS = 22_000;
const FIRST_WAIT_MS = 1_000;
const LONGEST_WAIT_MS = 15_000;

/** The browser's event stream, opened again whenever it ends or falls silent. Runs in a page and in a worker alike. */
export function openEventStream(onMessage: OnMessage, address = STAFF_EVENTS): Connection {
  let source: EventSource | null = null;
  let closed = false;
  let attempts = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;

  const again = (wait: number) => {
    clearTimeout(timer);
    if (!closed) timer = setTimeout(open, wait);
  };

  const receive = (name: LiveMessage["name"], text: string) => {
    attempts = 0;
    again(SILENT_AT_MOST_MS);
    onMessage({ name, data: JSON.parse(text) as LiveEvents[typeof name], ageMs: 0 } as LiveMessage);
    // The server means it: the browser's own quick return would only be turned away again.
    if (name === "ended") giveUpFor(LONGEST_WAIT_MS);
  };

  function giveUpFor(wait: number): void {
    source?.close();
    source = null;
    again(wait);
  }

  function open(): void {
    source?.close();
    const opened = new EventSource(address);
    source = opened;
    for (const name of EVENT_NAMES) {
      opened.addEventListener(name, (event: MessageEvent<string>) => {
        if (source === opened) receive(name, event.data);
      });
    }
    // A stream that broke comes back by itself; one that was refused does not.
    opened.onerror = () => {
      if (source === opened && opened.readyState === EventSource.CLOSED) giveUpFor(waitBefore(attempts++));
    };
    again(SILENT_AT_MOST_MS);
  }

  open();
  return {
    renew: () => {
      if (!closed) open();
    },
    close: () => {
      closed = true;
      clearTimeout(timer);
      source?.close();
      source = null;
    },
  };
}

function waitBefore(attempt: number): number {
  const full = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** attempt);
  return full / 2 + Math.random() * (full / 2);
}
