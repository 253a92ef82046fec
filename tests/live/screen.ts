import { vi } from "vitest";
import type { Sink } from "@/lib/live/streams";
import type { LiveEvents } from "@/lib/schemas/live";

type Heard = { [Name in keyof LiveEvents]: { name: Name; data: LiveEvents[Name] } }[keyof LiveEvents];

/** A screen at the end of a stream: what it heard, in order. */
export class Screen implements Sink {
  readonly heard: Heard[] = [];
  closed = false;

  send(chunk: Uint8Array): void {
    if (this.closed) throw new Error("sent to a closed stream");
    for (const block of new TextDecoder().decode(chunk).split("\n\n")) {
      const name = /^event: (\w+)$/m.exec(block)?.[1];
      const data = /^data: (.*)$/m.exec(block)?.[1];
      if (name && data) this.heard.push({ name, data: JSON.parse(data) } as Heard);
    }
  }

  close(): void {
    this.closed = true;
  }

  all<Name extends keyof LiveEvents>(name: Name): LiveEvents[Name][] {
    return this.heard.flatMap((one) => (one.name === name ? [one.data as LiveEvents[Name]] : []));
  }

  /** Waits for the next event of a kind that says what `wanted` asks for, among those from `from` on. */
  async until<Name extends keyof LiveEvents>(
    name: Name,
    wanted: (data: LiveEvents[Name]) => boolean = () => true,
    timeout = 5_000,
  ): Promise<LiveEvents[Name]> {
    return vi.waitFor(
      () => {
        const found = this.all(name).find(wanted);
        if (!found) throw new Error(`no such ${name} among ${JSON.stringify(this.heard.map((one) => one.name))}`);
        return found;
      },
      { timeout, interval: 5 },
    );
  }
}
