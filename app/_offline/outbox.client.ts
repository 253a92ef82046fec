"use client";

import { deviceStore, drop, type Entry, keep } from "./device-store.client";

/** Everything that waits on this device, of everybody, oldest first; every tab and page sees the same. */
class Outbox {
  #entries: readonly Entry[] = [];
  #keeps = true;
  #isRead = false;
  #loaded: Promise<void> | null = null;
  readonly #watchers = new Set<() => void>();
  readonly #channel = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel("yokeboard.outbox");

  constructor() {
    this.#channel?.addEventListener("message", () => {
      this.#read();
    });
  }

  readonly watch = (watcher: () => void): (() => void) => {
    this.#watchers.add(watcher);
    this.load();
    return () => {
      this.#watchers.delete(watcher);
    };
  };

  readonly entries = (): readonly Entry[] => this.#entries;
  /** Until then nobody may say that nothing waits. */
  readonly isRead = (): boolean => this.#isRead;
  /** False where the browser keeps nothing: then an entry lives as long as its page. */
  readonly keeps = (): boolean => this.#keeps;

  load(): Promise<void> {
    this.#loaded ??= this.#read();
    return this.#loaded;
  }

  async put(entry: Entry): Promise<void> {
    await this.load();
    this.#show([...this.#entries.filter(({ id }) => id !== entry.id), entry]);
    await keep("entries", entry).catch(() => this.#keepsNothing());
    this.#tell();
  }

  async remove(id: string): Promise<void> {
    this.#show(this.#entries.filter((entry) => entry.id !== id));
    await drop("entries", id).catch(() => this.#keepsNothing());
    this.#tell();
  }

  async #read(): Promise<void> {
    try {
      this.#show(await (await deviceStore()).getAll("entries"));
    } catch {
      this.#keepsNothing();
    }
  }

  #show(entries: readonly Entry[]): void {
    this.#isRead = true;
    this.#entries = [...entries].sort((left, right) => left.order - right.order);
    for (const watcher of this.#watchers) watcher();
  }

  #keepsNothing(): void {
    this.#isRead = true;
    this.#keeps = false;
    for (const watcher of this.#watchers) watcher();
  }

  #tell(): void {
    this.#channel?.postMessage("changed");
  }
}

let made: Outbox | null = null;

/** One for the page. Made in the browser only. */
export function outbox(): Outbox {
  made ??= new Outbox();
  return made;
}
