import { setTimeout as pause } from "node:timers/promises";
import pg from "pg";
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { Heartbeat } from "@/lib/live/heartbeat";
import { type Listener, listen } from "@/lib/live/listener";
import { createTestDatabase, type TestDatabase } from "@/tests/support/database";
import { wireTo } from "./proxy";

let database: TestDatabase;
beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(() => database.drop());

const open: { close(): Promise<void> }[] = [];
afterEach(async () => {
  for (const one of open.splice(0).reverse()) await one.close();
});

/** A listener whose payloads, ups and downs are noted. */
function listenTo(connectionString: string) {
  const heard = { payloads: [] as string[], ups: 0, downs: 0 };
  const listener: Listener = listen({
    connectionString,
    onPayload: (payload) => heard.payloads.push(payload),
    onUp: () => {
      heard.ups += 1;
    },
    onDown: () => {
      heard.downs += 1;
    },
  });
  open.push(listener);
  return { listener, heard };
}

async function ask(sql: string, values: unknown[] = []): Promise<void> {
  const client = new pg.Client({ connectionString: database.appUrl });
  await client.connect();
  await client.query(sql, values).finally(() => client.end());
}

const killListeners = () =>
  ask(
    "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE application_name = 'yokeboard live' AND datname = current_database()",
  );

describe("the connection that listens", () => {
  it("hears what another connection sends, and what it sends itself", async () => {
    const { listener, heard } = listenTo(database.appUrl);
    await vi.waitUntil(() => listener.isUp());
    await ask("SELECT pg_notify('yokeboard', 'from another')");
    await listener.send("from itself");
    await vi.waitFor(() => expect(heard.payloads).toEqual(["from another", "from itself"]));
  });

  it("opens again after the database ended it, and says both", async () => {
    const { listener, heard } = listenTo(database.appUrl);
    await vi.waitUntil(() => listener.isUp());
    await killListeners();
    await vi.waitFor(() => expect(heard).toMatchObject({ ups: 2, downs: 1 }), { timeout: 5_000 });
    await ask("SELECT pg_notify('yokeboard', 'after')");
    await vi.waitFor(() => expect(heard.payloads).toEqual(["after"]));
  });

  it("keeps trying while there is no database to connect to, and does not send meanwhile", async () => {
    const wire = await wireTo(database.appUrl);
    await wire.close();
    const { listener, heard } = listenTo(wire.url);
    await pause(700);
    expect(heard).toEqual({ payloads: [], ups: 0, downs: 0 });
    await expect(listener.send("nothing")).rejects.toThrow("not listening");
  });

  it("stays closed once closed", async () => {
    const { listener, heard } = listenTo(database.appUrl);
    await vi.waitUntil(() => listener.isUp());
    await listener.close();
    await pause(600);
    expect(heard).toMatchObject({ ups: 1, downs: 0 });
  });
});

describe("the heartbeat", () => {
  it("returns through the database while the connection lives, and is given up when the wire goes dead without a word", async () => {
    const wire = await wireTo(database.appUrl);
    open.push(wire);
    let returned = 0;
    const lost: string[] = [];
    const heartbeat = new Heartbeat({
      everyMs: 250,
      send: (payload) => listener.send(payload),
      onReturn: () => {
        returned += 1;
      },
      onLost: (reason) => {
        lost.push(reason.message);
        listener.renew(reason);
      },
    });
    const listener = listen({
      connectionString: wire.url,
      onPayload: (payload) => heartbeat.heard(JSON.parse(payload)),
      onUp: () => heartbeat.start(),
      onDown: () => heartbeat.stop(),
    });
    open.push(listener);
    await vi.waitFor(() => expect(returned).toBeGreaterThan(2), { timeout: 5_000 });

    wire.hang();
    lost.length = 0;
    await vi.waitFor(() => expect(lost[0]).toMatch(/heartbeat \d+ did not come back within 250 ms/), {
      timeout: 5_000,
    });
    const atDeath = returned;
    await pause(600);
    expect(returned).toBe(atDeath);

    wire.mend();
    await vi.waitFor(() => expect(returned).toBeGreaterThan(atDeath), { timeout: 12_000 });
  });

  it("is not deceived by the beat of another instance, or by an old one of its own", async () => {
    const sent: { beat: string; n: number }[] = [];
    let returned = 0;
    const heartbeat = new Heartbeat({
      everyMs: 60_000,
      send: async (payload) => void sent.push(JSON.parse(payload)),
      onReturn: () => {
        returned += 1;
      },
      onLost: () => undefined,
    });
    heartbeat.start();
    heartbeat.start();
    heartbeat.stop();
    const [first, second] = sent;
    if (!first || !second) throw new Error("two beats were expected");
    heartbeat.heard(first);
    heartbeat.heard({ ...second, beat: "another instance" });
    expect(returned).toBe(0);
    heartbeat.heard(second);
    expect(returned).toBe(1);
  });
});
