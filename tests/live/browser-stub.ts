import { vi } from "vitest";
import type { LiveEvents } from "@/lib/schemas/live";

/** The browser's end of an event stream, with the test at the other end. */
export class StubEventSource extends EventTarget {
  static readonly CLOSED = 2;
  static opened: StubEventSource[] = [];
  readyState = 1;
  onerror: (() => void) | null = null;

  constructor(readonly url: string) {
    super();
    StubEventSource.opened.push(this);
  }

  static get latest(): StubEventSource {
    const latest = StubEventSource.opened.at(-1);
    if (!latest) throw new Error("no stream was opened");
    return latest;
  }

  close(): void {
    this.readyState = StubEventSource.CLOSED;
  }

  say<Name extends keyof LiveEvents>(name: Name, data: LiveEvents[Name]): void {
    if (this.readyState === StubEventSource.CLOSED) throw new Error("said to a closed stream");
    this.dispatchEvent(new MessageEvent(name, { data: JSON.stringify(data) }));
  }

  /** What a browser does with any answer but 200. */
  refuse(): void {
    this.readyState = StubEventSource.CLOSED;
    this.onerror?.();
  }
}

/** A phone on plain http: no shared worker and no locks, so the tab holds a stream of its own. */
export function stubBrowser(): { window: EventTarget; document: EventTarget } {
  const page = {
    window: new EventTarget(),
    document: Object.assign(new EventTarget(), { visibilityState: "visible" }),
  };
  StubEventSource.opened = [];
  vi.stubGlobal("window", page.window);
  vi.stubGlobal("document", page.document);
  vi.stubGlobal("navigator", {});
  vi.stubGlobal("EventSource", StubEventSource);
  return page;
}
