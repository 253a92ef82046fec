"use client";

import { mayRetry, type Problem, sendCommand } from "@/app/_parts/api.client";
import type { Commands } from "@/app/_parts/command-types";
import type { Entry } from "./device-store.client";
import { outbox } from "./outbox.client";

export type Trouble = "no-signal" | "sign-in" | null;
type Recorded = Commands["record-answers"]["reply"];
export type Sent =
  | { readonly type: "sent"; readonly entry: Entry; readonly reply: Recorded }
  | { readonly type: "refused"; readonly entry: Entry; readonly message: string };

const LONGEST_WAIT = 15_000;
const waitAfter = (tries: number): number => Math.min(LONGEST_WAIT, 1_000 * 2 ** (tries - 1));

/**
 * Sends what waits, in its order, one at a time, again and again until the server has answered: every entry under its own key.
 * Only the signed-in person's entries go by themselves; somebody else's wait for their owner, or are sent when a person says so.
 */
class Sender {
  #person: { readonly id: string; readonly facilityId: string } | null = null;
  #tries = 0;
  #trouble: Trouble = null;
  #running = false;
  #timer: ReturnType<typeof setTimeout> | undefined;
  readonly #watchers = new Set<() => void>();
  readonly #listeners = new Set<(sent: Sent) => void>();

  /** Starts for a person, and stops with the function returned. */
  start(person: { readonly id: string; readonly facilityId: string }): () => void {
    this.#person = person;
    const stopWatching = outbox().watch(() => this.#soon());
    window.addEventListener("online", this.hurry);
    this.hurry();
    return () => {
      stopWatching();
      window.removeEventListener("online", this.hurry);
      clearTimeout(this.#timer);
      this.#person = null;
    };
  }

  readonly trouble = (): Trouble => this.#trouble;
  readonly watch = (watcher: () => void): (() => void) => {
    this.#watchers.add(watcher);
    return () => {
      this.#watchers.delete(watcher);
    };
  };

  listen(listener: (sent: Sent) => void): () => void {
    this.#listeners.add(listener);
    return () => {
      this.#listeners.delete(listener);
    };
  }

  readonly hurry = (): void => {
    this.#tries = 0;
    this.#say(null);
    clearTimeout(this.#timer);
    this.#run();
  };

  /** Sends one entry now, also somebody else's. */
  async sendNow(entry: Entry): Promise<void> {
    await this.#attempt({ ...entry, refusal: null });
  }

  #soon(): void {
    if (!this.#running && this.#tries === 0 && this.#trouble === null) this.#run();
  }

  async #run(): Promise<void> {
    if (this.#running) return;
    this.#running = true;
    try {
      await alone(async () => {
        for (let next = await this.#next(); next; next = await this.#next()) {
          const trouble = await this.#attempt(next);
          if (!trouble) continue;
          this.#tries += 1;
          this.#say(trouble);
          if (trouble === "no-signal") this.#timer = setTimeout(() => this.#run(), waitAfter(this.#tries));
          return;
        }
        this.#tries = 0;
        this.#say(null);
      });
    } finally {
      this.#running = false;
    }
  }

  async #next(): Promise<Entry | null> {
    await outbox().load();
    const { id, facilityId } = this.#person ?? {};
    const mine = (entry: Entry) => entry.facilityId === facilityId && entry.kept.personId === id;
    return (
      outbox()
        .entries()
        .find((entry) => mine(entry) && entry.refusal === null) ?? null
    );
  }

  async #attempt(waiting: Entry): Promise<Trouble> {
    const entry = { ...waiting, tried: true };
    await outbox().put(entry);
    const { checkId, kept } = entry;
    const answers = entry.answers.map(({ item, subject, answer, givenAt }) => ({ item, subject, answer, givenAt }));
    const reply = await sendCommand("record-answers", { checkId, answers, kept }, { key: entry.id });
    if (reply.ok) {
      await outbox().remove(entry.id);
      this.#publish({ type: "sent", entry, reply: reply.value });
      return null;
    }
    const { problem } = reply;
    if (problem.status === 401) return "sign-in";
    if (mayRetry(problem) || problem.status === 429 || problem.status === 423) return "no-signal";
    const message = inWords(problem);
    await outbox().put({ ...entry, refusal: message });
    this.#publish({ type: "refused", entry, message });
    return null;
  }

  #publish(sent: Sent): void {
    for (const listener of this.#listeners) listener(sent);
  }

  #say(trouble: Trouble): void {
    if (trouble === this.#trouble) return;
    this.#trouble = trouble;
    for (const watcher of this.#watchers) watcher();
  }
}

/** One tab sends at a time. Without locks (plain http) two may: the entry's key makes it count once all the same. */
async function alone(work: () => Promise<void>): Promise<void> {
  if ("locks" in navigator) await navigator.locks.request("yokeboard.sending", work);
  else await work();
}

const inWords = ({ title, detail, errors }: Problem): string =>
  errors?.length ? errors.map(({ message }) => message).join(" ") : detail || title;

let made: Sender | null = null;

export function sender(): Sender {
  made ??= new Sender();
  return made;
}
