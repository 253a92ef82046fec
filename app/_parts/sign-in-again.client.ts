"use client";

/** How a request whose session has ended reaches the dialog: whoever mounts the dialog registers it, requests wait for its answer. */
type Ask = () => Promise<boolean>;

let ask: Ask | null = null;
let asking: Promise<boolean> | null = null;
let ended = false;
let endedAt = 0;
const watchers = new Set<() => void>();

function become(next: boolean): void {
  if (next) endedAt = performance.now();
  if (next === ended) return;
  ended = next;
  for (const watcher of watchers) watcher();
}

export function registerSignInDialog(next: Ask): () => void {
  ask = next;
  return () => {
    if (ask === next) ask = null;
  };
}

/** True when the person has signed in again. Requests that fail together share one dialog. */
export function askToSignInAgain(): Promise<boolean> {
  if (!ask) return Promise.resolve(false);
  asking ??= ask()
    .then((signedIn) => {
      become(!signedIn);
      return signedIn;
    })
    .finally(() => {
      asking = null;
    });
  return asking;
}

/** A read in the background met the end of the session. It does not open a dialog over what the person is doing; a line says so. */
export const sessionHasEnded = (): void => become(true);

/** The API answered what was asked after the end: there is a session again, perhaps renewed in another tab. */
export function sessionLives(askedAt: number): void {
  if (askedAt > endedAt) become(false);
}

export const sessionEnd = {
  watch: (watcher: () => void): (() => void) => {
    watchers.add(watcher);
    return () => watchers.delete(watcher);
  },
  hasCome: (): boolean => ended,
};
