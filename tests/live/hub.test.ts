import { randomUUID } from "node:crypto";
import { setTimeout as pause } from "node:timers/promises";
import pg from "pg";
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { signOut } from "@/lib/auth/sign-in";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import { importDepartment } from "@/lib/commands/import-department";
import { importTemplate } from "@/lib/exchange/import-template";
import { databaseSource } from "@/lib/live/database-source";
import type { Hub } from "@/lib/live/hub";
import { MOST_STREAMS_A_SESSION } from "@/lib/live/streams";
import { readBoard } from "@/lib/queries/board";
import type { BoardRow } from "@/lib/schemas/board";
import { instant } from "@/lib/units/time";
import { openSession, type SmallDepartment, smallDepartment } from "@/tests/support/small-department";
import { type Instance, startInstance } from "./instance";
import { wireTo } from "./proxy";
import { Screen } from "./screen";

let department: SmallDepartment;
let technician: Actor;
let rooms: BoardRow[];
beforeAll(async () => {
  department = await smallDepartment();
  technician = await department.person("Rosa Osei", ["technician"]);
  rooms = (await readBoard(technician, { database: department.database, now: department.clock.now })).rooms.filter(
    ({ workstation }) => workstation,
  );
});
afterAll(() => department.close());

const closers: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const close of closers.splice(0).reverse()) await close();
});

function instance(options: Parameters<typeof startInstance>[1] = {}): Instance {
  const started = startInstance(department, options);
  closers.push(() => started.hub.close());
  return started;
}

async function watch(hub: Hub, sessionId?: string): Promise<Screen> {
  const screen = new Screen();
  hub.subscribe(technician.facility.id, sessionId ?? (await openSession(department, technician)), screen);
  await screen.until("hello");
  return screen;
}

/** Sends a payload as another instance's transaction would. */
async function notify(payload: string): Promise<void> {
  const client = new pg.Client({ connectionString: department.appUrl });
  await client.connect();
  await client.query("SELECT pg_notify('yokeboard', $1)", [payload]).finally(() => client.end());
}

const workstationIn = (room: BoardRow | undefined): string => room?.workstation?.id ?? "";

/** Something that changes one room's state: its workstation is held. Returns what lifts the hold again. */
async function hold(room: BoardRow | undefined): Promise<() => Promise<unknown>> {
  const workstationId = workstationIn(room);
  department.clock.add(1);
  const { holdId } = await department.must(
    holdWorkstation,
    { workstationId, reason: "a hiss at the yoke" },
    technician,
  );
  return () => department.must(liftHold, { workstationId, holdId, reason: "looked at: nothing" }, technician);
}

const shows = (room: BoardRow | undefined, state: string) => (event: { rooms: BoardRow[] }) =>
  event.rooms.some(({ roomId, state: shown }) => roomId === room?.roomId && shown === state);

describe("a command on one instance", () => {
  it("reaches the screens of every instance as the changed room's row, and no other room's", async () => {
    const [one, other] = [instance(), instance()];
    const screens = [await watch(one.hub), await watch(other.hub)];
    const [room] = rooms;
    const lift = await hold(room);
    for (const screen of screens) {
      const event = await screen.until("rows", shows(room, "do-not-use"));
      expect(event.rooms.map(({ roomId }) => roomId)).toEqual([room?.roomId]);
      expect(event).toMatchObject({ complete: false, facility: technician.facility.id });
      expect(event.sequence).toBe(event.after + 1);
      expect(event.after).toBe(screen.all("hello")[0]?.sequence);
    }
    await lift();
    for (const screen of screens) await screen.until("rows", shows(room, "to-check"));
  });

  it("follows without a gap: each event names the sequence before it", async () => {
    const { hub } = instance();
    const screen = await watch(hub);
    for (let i = 0; i < 3; i += 1) await (await hold(rooms[i % rooms.length]))();
    const { sequence: first = 0 } = screen.all("hello")[0] ?? {};
    await screen.until("rows", ({ sequence }) => sequence === first + 6);
    const events = screen.all("rows");
    expect(events.map(({ after }) => after)).toEqual([first, ...events.slice(0, -1).map(({ sequence }) => sequence)]);
  });

  it("is read once for all of an instance's screens", async () => {
    const { hub, reads } = instance();
    const screens = await Promise.all(Array.from({ length: 20 }, () => watch(hub)));
    const before = { ...reads };
    const lift = await hold(rooms[0]);
    await Promise.all(screens.map((screen) => screen.until("rows", shows(rooms[0], "do-not-use"))));
    expect(reads).toMatchObject({ board: before.board, rows: before.rows + 1 });
    await lift();
  });

  it("that adds a room reaches them as the whole board, in which the room has its place", async () => {
    const { hub } = instance();
    const screen = await watch(hub);
    const [header = "", first = ""] = importTemplate("rooms").split(/\r?\n/);
    const added = first.replace("OR 1", "OR 77");
    department.clock.add(1);
    await department.must(importDepartment, { files: { rooms: `${header}\n${added}\n` } }, department.admin);
    const event = await screen.until("rows", (rows) => rows.rooms.some(({ name }) => name === "OR 77"));
    expect(event.complete).toBe(true);
    const stored = await readBoard(technician, { database: department.database, now: department.clock.now });
    expect(event.rooms.map(({ name }) => name)).toEqual(stored.rooms.map(({ name }) => name));
  });

  it("that changes more rooms than a notice can name reaches them as the whole board", async () => {
    const { hub } = instance();
    const screen = await watch(hub);
    const { sequence = 0 } = screen.all("hello")[0] ?? {};
    const notice = {
      facility: technician.facility.id,
      sequence: sequence + 1,
      command: "import-department",
      holders: [],
      all: true,
    };
    await notify(JSON.stringify(notice));
    const event = await screen.until("rows");
    expect(event).toMatchObject({ complete: true, after: sequence, sequence: sequence + 1 });
    expect(event.rooms.length).toBeGreaterThanOrEqual(rooms.length);
  });

  it("does not reach the screens of another facility", async () => {
    const { hub } = instance();
    const own = await watch(hub);
    const elsewhere = new Screen();
    hub.subscribe(randomUUID(), randomUUID(), elsewhere);
    const lift = await hold(rooms[0]);
    await own.until("rows", shows(rooms[0], "do-not-use"));
    expect(elsewhere.heard).toEqual([]);
    await lift();
  });
});

describe("a stream", () => {
  it("ends when its session is signed out, on whichever instance that happens, and the other session's goes on", async () => {
    const [one, other] = [instance(), instance()];
    const [leaving, staying] = [await openSession(department, technician), await openSession(department, technician)];
    const [gone, kept] = [await watch(one.hub, leaving), await watch(other.hub, staying)];
    const scope = { organisationId: technician.organisationId, facilityId: technician.facility.id };
    await signOut({ sessionId: leaving, ...scope }, department.database);
    expect(await gone.until("ended")).toEqual({ reason: "session-ended" });
    expect(gone.closed).toBe(true);
    expect(kept.closed).toBe(false);
    const lift = await hold(rooms[0]);
    await kept.until("rows", shows(rooms[0], "do-not-use"));
    expect(gone.all("rows")).toEqual([]);
    await lift();
  });

  it("ends when its session has run out, which nobody announces", async () => {
    const { hub } = instance({ sessionsEveryMs: 50 });
    const screen = await watch(hub, await openSession(department, technician));
    const strangers = new Screen();
    hub.subscribe(technician.facility.id, randomUUID(), strangers);
    expect(await strangers.until("ended")).toEqual({ reason: "session-ended" });
    expect(screen.closed).toBe(false);
  });

  it("gives way when one session opens too many, the oldest first", async () => {
    const { hub } = instance();
    const sessionId = await openSession(department, technician);
    const screens = [];
    for (let i = 0; i <= MOST_STREAMS_A_SESSION; i += 1) screens.push(await watch(hub, sessionId));
    expect(screens.map(({ closed }) => closed)).toEqual([
      true,
      ...Array.from({ length: MOST_STREAMS_A_SESSION }, () => false),
    ]);
    expect(screens[0]?.all("ended")).toEqual([{ reason: "too-many-streams" }]);
  });

  it("is closed when the instance stops, and none opens after that", async () => {
    const { hub } = instance();
    const screen = await watch(hub);
    hub.closeStreams();
    expect(screen.closed).toBe(true);
    const late = new Screen();
    hub.subscribe(technician.facility.id, randomUUID(), late);
    expect(late.closed).toBe(true);
  });
});

describe("beats", () => {
  it("stop when nothing comes back from the database, though stream and connection stay open; what was missed is made up for", async () => {
    const wire = await wireTo(department.appUrl);
    closers.push(() => wire.close());
    const { hub, problems } = instance({ connectionString: wire.url, beatEveryMs: 250 });
    const screen = await watch(hub);
    await vi.waitFor(() => expect(screen.all("beat").length).toBeGreaterThan(2), { timeout: 5_000 });

    wire.hang();
    await vi.waitFor(() => expect(String(problems[0])).toMatch(/heartbeat \d+ did not come back/), { timeout: 5_000 });
    const beats = screen.all("beat").length;
    const missed = screen.heard.length;
    const lift = await hold(rooms[0]);
    await pause(800);
    expect(screen.all("beat").length).toBe(beats);
    expect(screen.heard.length).toBe(missed);
    expect(screen.closed).toBe(false);

    wire.mend();
    const event = await screen.until("rows", shows(rooms[0], "do-not-use"), 15_000);
    expect(event.complete).toBe(true);
    expect(event.rooms.length).toBeGreaterThanOrEqual(rooms.length);
    await vi.waitFor(() => expect(screen.all("beat").length).toBeGreaterThan(beats), { timeout: 5_000 });
    await lift();
  });

  it("stop while the board cannot be read, for the rows on the screens are then old", async () => {
    let broken = false;
    const { hub, problems } = startWithReads(() => broken);
    const screen = await watch(hub);
    broken = true;
    const lift = await hold(rooms[0]);
    await vi.waitFor(() => expect(problems.length).toBeGreaterThan(0));
    await pause(400);
    const beats = screen.all("beat").length;
    await pause(700);
    expect(screen.all("beat").length).toBe(beats);
    broken = false;
    await screen.until("rows", shows(rooms[0], "do-not-use"));
    await vi.waitFor(() => expect(screen.all("beat").length).toBeGreaterThan(beats), { timeout: 5_000 });
    await lift();
  });

  function startWithReads(isBroken: () => boolean): Instance {
    const source = databaseSource(department.database, () => instant(department.clock.now()));
    return instance({
      beatEveryMs: 100,
      behindAtMostMs: 200,
      source: {
        ...source,
        readRows: (facilityId, roomIds) =>
          isBroken() ? Promise.reject(new Error("the pool is used up")) : source.readRows(facilityId, roomIds),
      },
    });
  }
});

describe("before the database can be heard", () => {
  it("a stream says nothing at all, and says hello once it can", async () => {
    const wire = await wireTo(department.appUrl);
    closers.push(() => wire.close());
    wire.hang();
    const { hub } = instance({ connectionString: wire.url });
    const screen = new Screen();
    hub.subscribe(technician.facility.id, await openSession(department, technician), screen);
    await pause(400);
    expect(screen.heard).toEqual([]);
    wire.mend();
    await screen.until("hello", () => true, 15_000);
  });

  it("knows nothing of payloads that are not its own", async () => {
    const { hub, problems } = instance();
    const screen = await watch(hub);
    for (const payload of ["", "not json", "{}", '{"facility":"x","sequence":1}', "null"]) await notify(payload);
    const lift = await hold(rooms[0]);
    await screen.until("rows", shows(rooms[0], "do-not-use"));
    expect(problems).toEqual([]);
    await lift();
  });
});
