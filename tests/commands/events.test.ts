import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { endEvent } from "@/lib/commands/end-event";
import { startCase } from "@/lib/commands/occupancy";
import { raiseEvent } from "@/lib/commands/raise-event";
import { rejudgeAll } from "@/lib/commands/rejudge";
import { returnToService } from "@/lib/commands/return-to-service";
import { readEvent, readEvents, readOpenEvents } from "@/lib/queries/events";
import { readTasks } from "@/lib/queries/tasks";
import { checkWhole, readingOf, roomNamed } from "@/tests/support/room-work";
import type { SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let technician: Actor;
let charge: Actor;
let zoneId = "";
const NOBODYS = "00000000-0000-4000-8000-000000000000";
const ROOMS = ["OR 1", "OR 2", "OR 3"] as const;

beforeAll(async () => {
  department = await widerDepartment();
  technician = await department.person("Rosa Osei", ["technician"]);
  charge = await department.person("Ines Marlow", ["provider", "charge-provider"]);
  for (const name of ROOMS) await checkWhole(department, name, technician);
  const { zones } = await readEvents(charge, readingOf(department));
  zoneId = zones.find(({ name }) => name.startsWith("North"))?.id ?? "";
  department.clock.add(20);
});
afterAll(() => department.close());

const stateOf = async (name: string) => (await roomNamed(department, name)).state;
const states = async () => Promise.all(ROOMS.map(stateOf));
const roomId = async (name: string) => (await roomNamed(department, name)).roomId;
const openLines = async () => (await readOpenEvents(technician, readingOf(department))).events;
const openTasks = async () => (await readTasks(technician, readingOf(department))).tasks;
const psi = (value: number) => ({ value, unit: "psi" }) as const;
const low = (more: object = {}) =>
  ({ kind: "pipeline-low", zoneId, gas: "oxygen", drill: false, ...more }) as Parameters<typeof raiseEvent.run>[1];

describe("what cannot be raised", () => {
  it("a zone that is not there", async () => {
    const outcome = await department.run(raiseEvent, low({ zoneId: NOBODYS }), charge);
    expect(outcome).toMatchObject({ ok: false, refusal: "not-found", field: "zoneId" });
    expect(outcome.ok ? "" : outcome.message).toMatch(/no zone with this id/);
  });

  it("something in a zone that has no room", async () => {
    const south = (await readEvents(charge, readingOf(department))).zones.find(({ rooms }) => rooms === 0);
    expect(await department.run(raiseEvent, low({ zoneId: south?.id }), charge)).toMatchObject({
      ok: false,
      refusal: "invalid",
    });
  });

  it.each([
    ["no gas", { gas: undefined }, "gas"],
    ["a low pressure that is not low", { reading: psi(52) }, "reading"],
    ["a high one that is not high", { kind: "pipeline-high", reading: psi(52) }, "reading"],
    ["a restored one that is not restored", { kind: "pipeline-restored", reading: psi(30) }, "reading"],
    ["a pressure under nothing", { reading: psi(-1) }, "reading"],
    ["a pressure in litres", { reading: { value: 43, unit: "L" } }, "reading"],
    ["power with a gas", { kind: "power" }, "gas"],
    ["a recall of a zone", { kind: "recall", gas: undefined }, "modelId"],
  ])("%s", async (_name, more, field) => {
    expect(await department.run(raiseEvent, low(more), charge)).toMatchObject({ ok: false, refusal: "invalid", field });
    expect(await openLines()).toEqual([]);
  });
});

describe("a drill", () => {
  it("is told and marked, is one task, changes no readiness, and ends by a word", async () => {
    expect(await states()).toEqual(["ready", "ready", "ready"]);
    const { eventId, rooms } = await department.must(raiseEvent, low({ drill: true, reading: psi(43) }), charge);
    expect(rooms).toBe(3);
    const [line] = await openLines();
    expect(line).toMatchObject({ drill: true, effect: "3 rooms, nothing is out of use" });
    expect(line?.title).toBe("Drill: oxygen pipeline low, 43 psi: North wing, level 2");
    expect(await states()).toEqual(["ready", "ready", "ready"]);
    expect((await openTasks()).filter(({ kind }) => kind === "event").map(({ severity }) => severity)).toEqual(["due"]);
    const back = { eventId, rooms: [{ roomId: await roomId("OR 1"), pressure: psi(52), identity: true }] };
    expect(await department.run(returnToService, back, technician)).toMatchObject({ ok: false, refusal: "invalid" });
    await department.must(endEvent, { eventId, reason: "Everybody knew the card." }, charge);
    expect(await openLines()).toEqual([]);
    expect(await department.run(endEvent, { eventId, reason: "Again." }, charge)).toMatchObject({
      ok: false,
      refusal: "already-done",
    });
  });
});

describe("an oxygen pipeline that fails", () => {
  let eventId = "";

  it("is one line and one task, and each room says what it means there", async () => {
    department.clock.add(1);
    await department.must(startCase, { roomId: await roomId("OR 1") }, charge);
    department.clock.add(1);
    ({ eventId } = await department.must(raiseEvent, low({ reading: psi(43) }), technician));
    expect(await states()).toEqual(["do-not-use", "do-not-use", "do-not-use"]);
    const lines = await openLines();
    expect(lines.map(({ title }) => title)).toEqual(["Oxygen pipeline low, 43 psi: North wing, level 2"]);
    expect(lines[0]?.effect).toBe("3 rooms: 1 in use, act now; 3 still to return");
    const tasks = (await openTasks()).filter(({ severity }) => severity === "stops" || severity === "owed");
    const mine = tasks.filter(({ kind, room }) => kind === "event" || ROOMS.some((name) => name === room?.name));
    expect(mine.map(({ kind, key }) => [kind, key])).toEqual([["event", `event:${eventId}`]]);
    const view = await readEvent(technician, eventId, readingOf(department));
    expect(view?.rooms.map(({ name, whenInUse, left }) => [name, whenInUse, left])).toEqual([
      ["OR 1", "act-now", ["pipeline-pressure", "pipeline-identity"]],
      ["OR 2", null, ["pipeline-pressure", "pipeline-identity"]],
      ["OR 3", null, ["pipeline-pressure", "pipeline-identity"]],
    ]);
    expect(view?.rooms[0]?.reason).toBe("Oxygen pipeline 43 psi (at least 45 psi)");
    expect(view?.card.steps[0]?.act).toMatch(/^Open the reserve oxygen cylinder/);
  });

  it("is not raised twice", async () => {
    expect(await department.run(raiseEvent, low(), charge)).toMatchObject({ ok: false, refusal: "already-done" });
  });

  it("does not end by a word", async () => {
    const outcome = await department.run(endEvent, { eventId, reason: "It is fine again." }, charge);
    expect(outcome).toMatchObject({ ok: false, refusal: "not-allowed" });
    expect(outcome.ok ? "" : outcome.message).toMatch(/OR 1, OR 2, OR 3/);
  });

  it("is followed by its restoration: the line is another one, and the rooms still have to prove it", async () => {
    department.clock.add(10);
    const restored = low({ kind: "pipeline-restored", reading: psi(51) });
    ({ eventId } = await department.must(raiseEvent, restored, charge));
    expect((await openLines()).map(({ kind }) => kind)).toEqual(["pipeline-restored"]);
    expect(await states()).toEqual(["do-not-use", "do-not-use", "do-not-use"]);
  });

  it.each([
    ["pressure alone", { pressure: psi(51) }],
    ["identity alone", { identity: true }],
    ["neither", {}],
  ])("does not come back by %s", async (_name, looks) => {
    const rooms = [{ roomId: await roomId("OR 2"), ...looks }];
    const outcome = await department.run(returnToService, { eventId, rooms }, technician);
    expect(outcome).toMatchObject({ ok: false, refusal: "invalid", field: "rooms.0" });
    expect(await stateOf("OR 2")).toBe("do-not-use");
  });

  it.each([
    ["the wrong gas", { pressure: psi(51), identity: false }, "do-not-use"],
    ["a pressure out of its band", { pressure: psi(40), identity: true }, "do-not-use"],
  ])("stays out with %s, on record", async (_name, looks, state) => {
    department.clock.add(1);
    const rooms = [{ roomId: await roomId("OR 2"), ...looks }];
    const reply = await department.must(returnToService, { eventId, rooms }, technician);
    expect(reply).toMatchObject({ returned: [], ended: false });
    expect(reply.left).toContain("OR 2");
    expect(await stateOf("OR 2")).toBe(state);
  });

  it("comes back room by room with both, and the event and its task end with the last one", async () => {
    department.clock.add(1);
    const good = async (name: string) => ({ roomId: await roomId(name), pressure: psi(51), identity: true });
    const first = await department.must(returnToService, { eventId, rooms: [await good("OR 2")] }, technician);
    expect(first).toMatchObject({ returned: ["OR 2"], ended: false });
    expect([...first.left].sort()).toEqual(["OR 1", "OR 3"]);
    expect(await states()).toEqual(["do-not-use", "ready", "do-not-use"]);
    await rejudgeAll(department.database, department.clock, scopeOf(technician));
    const task = (await openTasks()).find(({ kind }) => kind === "event");
    expect(task?.why).toBe("2 rooms to return to service: pressure and gas identity in each");
    department.clock.add(1);
    const last = { eventId, rooms: [await good("OR 1"), await good("OR 3")] };
    expect(await department.must(returnToService, last, technician)).toMatchObject({ left: [], ended: true });
    expect(await states()).toEqual(["ready", "ready", "ready"]);
    expect(await openLines()).toEqual([]);
    expect((await openTasks()).some(({ kind }) => kind === "event")).toBe(false);
    expect(await department.run(returnToService, last, technician)).toMatchObject({ ok: false, refusal: "moved-on" });
  });
});

describe("power, and a recall", () => {
  it("a power failure stops the workstations of the zone until each runs on mains again", async () => {
    department.clock.add(1);
    const { eventId } = await department.must(raiseEvent, { kind: "power", zoneId, drill: false }, charge);
    expect(await states()).toEqual(["do-not-use", "do-not-use", "do-not-use"]);
    department.clock.add(5);
    const rooms = await Promise.all(ROOMS.map(async (name) => ({ roomId: await roomId(name), mains: true })));
    expect(await department.must(returnToService, { eventId, rooms }, technician)).toMatchObject({ ended: true });
    expect(await states()).toEqual(["ready", "ready", "ready"]);
  });

  it("a recall is work in the rooms with that model, and leaves them ready", async () => {
    department.clock.add(1);
    const { models } = await readEvents(charge, readingOf(department));
    const modelId = models.find(({ name }) => name === "Ostwick A3")?.id ?? "";
    const recall = { kind: "recall", modelId, drill: false, note: "OA-7, breathing hose connector" } as const;
    const { eventId, rooms } = await department.must(raiseEvent, recall, charge);
    expect(rooms).toBe(2);
    expect(await states()).toEqual(["ready", "ready", "ready"]);
    const recalled = (await openTasks()).filter(({ why }) => why.includes("OA-7") && why.includes("not assessed"));
    expect(recalled.map(({ room }) => room?.name).sort()).toEqual(["OR 2", "OR 3"]);
    await department.must(endEvent, { eventId, reason: "Connectors looked at, none of that lot." }, charge);
    expect((await openTasks()).some(({ why }) => why.includes("OA-7"))).toBe(false);
  });
});
