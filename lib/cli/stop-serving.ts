import type http from "node:http";
import type https from "node:https";
import { setTimeout as pause } from "node:timers/promises";

/**
 * What other layers leave for the moment of stopping, on globalThis because a page and this file
 * may see two instances of one module.
 */
interface StoppingHooks {
  /** Open event streams: each is told, so that a board says at once that it is not live. */
  __yokeboardStreams?: Set<{ close(): void }>;
  /** Pools, listeners and timers. */
  __yokeboardClosers?: Set<() => Promise<void>>;
}

/** How long a request under way may take to finish. */
const GRACE_MS = 600;

/** Lets what is under way finish, ends the streams, then closes what is left: under a second in all. */
export async function stopServing(server: http.Server | https.Server, closeApp: () => Promise<void>): Promise<void> {
  const hooks = globalThis as StoppingHooks;
  const closed = new Promise<void>((resolve) => server.close(() => resolve()));
  for (const stream of hooks.__yokeboardStreams ?? []) stream.close();
  server.closeIdleConnections();
  await Promise.race([closed, pause(GRACE_MS, undefined, { ref: false })]);
  server.closeAllConnections();
  await closed;
  await Promise.allSettled([...(hooks.__yokeboardClosers ?? [])].map((close) => close()));
  await closeApp();
}
