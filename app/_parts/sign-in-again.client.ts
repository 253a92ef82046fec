"use client";

/** How a request whose session has ended reaches the dialog: whoever mounts the dialog registers it, requests wait for its answer. */
type Ask = () => Promise<boolean>;

let ask: Ask | null = null;
let asking: Promise<boolean> | null = null;

export function registerSignInDialog(next: Ask): () => void {
  ask = next;
  return () => {
    if (ask === next) ask = null;
  };
}

/** True when the person has signed in again. Requests that fail together share one dialog. */
export function askToSignInAgain(): Promise<boolean> {
  if (!ask) return Promise.resolve(false);
  asking ??= ask().finally(() => {
    asking = null;
  });
  return asking;
}
