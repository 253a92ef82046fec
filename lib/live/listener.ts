import { setTimeout as pause } from "node:timers/promises";
import pg from "pg";
import { CHANNEL } from "./notice";

export interface ListenerOptions {
  connectionString: string;
  onPayload: (payload: string) => void;
  /** Listening from now on; whatever was sent before may have been missed. */
  onUp: () => void;
  onDown: (reason: Error) => void;
}

export interface Listener {
  isUp(): boolean;
  /** Sends through the connection that listens, so what comes back proves that very connection. */
  send(payload: string): Promise<void>;
  /** Gives up a connection that no longer answers; the next attempt follows at once. */
  renew(reason: Error): void;
  close(): Promise<void>;
}

const FIRST_WAIT_MS = 200;
const LONGEST_WAIT_MS = 5_000;
const CONNECT_WITHIN_MS = 5_000;
/** A stop does not wait longer than this for a database that no longer answers. */
const FAREWELL_MS = 300;

/** One connection that does nothing but LISTEN, opened again with growing pauses for as long as it is wanted. */
export function listen({ connectionString, onPayload, onUp, onDown }: ListenerOptions): Listener {
  let client: pg.Client | null = null;
  let up = false;
  let closed = false;
  let attempts = 0;
  let timer: NodeJS.Timeout | undefined;

  function lost(which: pg.Client, reason: Error): void {
    if (client !== which) return;
    client = null;
    const wasUp = up;
    up = false;
    discard(which);
    if (wasUp) onDown(reason);
    if (!closed) timer = setTimeout(connect, waitBefore(attempts++));
  }

  function connect(): void {
    const attempt = new pg.Client({
      connectionString,
      keepAlive: true,
      connectionTimeoutMillis: CONNECT_WITHIN_MS,
      application_name: "yokeboard live",
    });
    client = attempt;
    attempt.on("error", (error) => lost(attempt, error));
    attempt.on("end", () => lost(attempt, new Error("the database closed the connection")));
    attempt.on("notification", ({ payload }) => onPayload(payload ?? ""));
    attempt
      .connect()
      .then(() => attempt.query(`LISTEN ${CHANNEL}`))
      .then(() => {
        if (client !== attempt) return;
        up = true;
        attempts = 0;
        onUp();
      })
      .catch((error: Error) => lost(attempt, error));
  }

  connect();
  return {
    isUp: () => up,
    async send(payload) {
      if (!client || !up) throw new Error("not listening");
      await client.query("SELECT pg_notify($1, $2)", [CHANNEL, payload]);
    },
    renew(reason) {
      if (client) lost(client, reason);
    },
    async close() {
      closed = true;
      clearTimeout(timer);
      const last = client;
      client = null;
      up = false;
      if (last) await Promise.race([last.end().catch(() => undefined), pause(FAREWELL_MS, undefined, { ref: false })]);
    },
  };
}

/** Doubling, with a random half, so that many instances do not knock on a restarted database together. */
function waitBefore(attempt: number): number {
  const full = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** attempt);
  return full / 2 + Math.random() * (full / 2);
}

/** A connection given up may be half dead: its farewell is neither waited for nor heard. */
function discard(client: pg.Client): void {
  client.removeAllListeners("notification");
  client.on("error", () => undefined);
  client.end().catch(() => undefined);
}
