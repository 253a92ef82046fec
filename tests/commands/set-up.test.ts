import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { addPart } from "@/lib/commands/add-part";
import { addFacility } from "@/lib/commands/found";
import { closeRoom, endCase, openRoom, startCase } from "@/lib/commands/occupancy";
import { setModel } from "@/lib/commands/set-model";
import { setPlace } from "@/lib/commands/set-place";
import { retireRoom, setRoom } from "@/lib/commands/set-room";
import { setSite } from "@/lib/commands/set-site";
import { retireWorkstation, setWorkstation } from "@/lib/commands/set-workstation";
import { readBoard } from "@/lib/queries/board";
import { readEvidence } from "@/lib/queries/evidence";
import { readPlaces, readSite } from "@/lib/queries/set-up";
import { expectRefused } from "@/tests/support/refusals";
import { checkWhole, readingOf, roomNamed, workstationIn } from "@/tests/support/room-work";
import type { SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";
import { MODEL, newRoom } from "./prepared-set-up";

let department: SmallDepartment;
let manager: Actor;
let provider: Actor;

beforeAll(async () => {
  department = await widerDepartment();
  manager = await department.person("Ines Falk", ["manager"]);
  provider = await department.person("Karl Brandt", ["provider"]);
});
afterAll(() => department.close());
beforeEach(() => department.clock.add(1));

const unknown = "00000000-0000-4000-8000-000000000000";
const places = () => readPlaces(manager, readingOf(department));
const board = () => readBoard(manager, readingOf(department));
const asked = (name?: string) => newRoom({ department, helper: manager }, name);

describe("a department from nothing, by hand", () => {
  it("becomes a board with a room, its workstation and a spare, without any import", async () => {
    const facility = { name: "Tern Hollow", timeZone: "Europe/London", scheme: "ISO", pressureUnit: "bar" } as const;
    const added = await addFacility(
      { database: department.database, clock: department.clock },
      facility,
      department.admin,
    );
    if (!added.ok) throw new Error(added.message);
    const there: Actor = { ...department.admin, facility: { ...facility, id: added.value.facilityId } };
    const must: SmallDepartment["must"] = (command, input) => department.must(command, input, there);
    expect((await readBoard(there, readingOf(department))).rooms).toEqual([]);

    const suite = await must(setPlace, { kind: "suite", placeId: null, name: "Theatres", walkingOrder: 1 }, there);
    const zone = await must(setPlace, { kind: "zone", placeId: null, name: "East, level 1" }, there);
    const store = await must(
      setPlace,
      { kind: "store", placeId: null, name: "Workroom", suiteId: suite.placeId, walkingOrder: 5 },
      there,
    );
    const { roomId } = await must(
      setRoom,
      {
        roomId: null,
        name: "Theatre 1",
        suiteId: suite.placeId,
        zoneId: zone.placeId,
        piped: ["oxygen", "air"],
        vacuum: true,
        wasteGas: "active",
        walkingOrder: 1,
      },
      there,
    );
    const { modelId } = await must(setModel, { modelId: null, name: "Harrow 3", ...MODEL }, there);
    const first = { workstationId: null, tag: "TH-01", serial: "H3-1", modelId, place: { roomId } };
    const { workstationId } = await must(setWorkstation, first, there);
    await must(setWorkstation, { ...first, tag: "TH-02", serial: "H3-2", place: { storeId: store.placeId } }, there);

    // No reserve oxygen at all: the room may not start, whatever is checked.
    expect((await readBoard(there, readingOf(department))).rooms).toMatchObject([{ state: "do-not-use" }]);
    const cells = {
      serial: "OX-1",
      gas: "oxygen",
      scheme: "ISO",
      size: "E",
      "water capacity L": "4.7",
      "rated contents L": "680",
      "rated pressure": "137",
      "rated pressure unit": "bar",
      contents: "full",
    };
    const part = { kind: "cylinder", workstationId, storeId: null, position: "1", cells } as const;
    await must(addPart, part, there);
    const { rooms } = await readBoard(there, readingOf(department));
    expect(rooms).toMatchObject([
      { name: "Theatre 1", suite: "Theatres", state: "to-check", workstation: { tag: "TH-01", model: "Harrow 3" } },
    ]);
    const evidence = await readEvidence(there, roomId, readingOf(department));
    expect(evidence?.room).toMatchObject({ zone: "East, level 1", piped: ["air", "oxygen"], wasteGas: "active" });
    expect(evidence?.workstation?.model).toMatchObject({ leakTest: "self-test", mounts: ["left"] });
    expect(evidence?.procedure?.owes.length).toBeGreaterThan(20);
  });
});

describe("parts by hand", () => {
  const cells = { tag: "V-900", agent: "sevoflurane", filler: "keyed" };
  const on = async (more: object) => ({
    kind: "vaporizer" as const,
    workstationId: await workstationIn(department, "OR 1"),
    storeId: null,
    position: "1",
    cells,
    ...more,
  });

  it.each([
    {
      more: { cells: { ...cells, agent: "ether" } },
      refusal: "invalid",
      field: "cells.agent",
      message: /ether.*is not known here/,
    },
    {
      more: { cells: { ...cells, colour: "red" } },
      refusal: "invalid",
      field: "cells.colour",
      message: /not asked here; known: tag, agent/,
    },
    { more: { position: "9" }, refusal: "invalid", field: "position", message: /9/ },
    { more: { storeId: unknown }, refusal: "not-found", field: "storeId", message: /no store with this id/ },
  ] as const)("$field is named when it is wrong", async ({ more, refusal, field, message }) => {
    await expectRefused(department, addPart, await on(more), manager, { refusal, field, message });
  });

  it("one that is recorded is refused", async () => {
    const known = (await places()).workstations.flatMap(({ parts }) => parts).find(({ kind }) => kind === "vaporizer");
    const taken = { refusal: "taken", field: "cells.tag", message: /is recorded already/ } as const;
    await expectRefused(department, addPart, await on({ cells: { ...cells, tag: known?.name } }), manager, taken);
  });
});

describe("rooms", () => {
  it("a name is taken whatever its letter case, and by a retired room too", async () => {
    const taken = { refusal: "taken", field: "name", message: /^OR 1: There is a room named so already/ } as const;
    await expectRefused(department, setRoom, await asked(" or 1 "), manager, taken);
    const { roomId } = await department.must(setRoom, await asked("Old block 3"), manager);
    await department.must(retireRoom, { roomId }, manager);
    const retired = { refusal: "taken", field: "name", message: /it is retired\. Bring it back/ } as const;
    await expectRefused(department, setRoom, await asked("Old Block 3"), manager, retired);
  });

  it("leaves the board when it is retired, and is back when it is changed again", async () => {
    const { roomId } = await department.must(setRoom, await asked("Procedure 9"), manager);
    expect((await board()).rooms.map(({ name }) => name)).toContain("Procedure 9");
    await department.must(retireRoom, { roomId }, manager);
    expect((await board()).rooms.map(({ name }) => name)).not.toContain("Procedure 9");
    await department.must(setRoom, { ...(await asked("Procedure 9B")), roomId }, manager);
    expect((await board()).rooms.map(({ name }) => name)).toContain("Procedure 9B");
  });

  it.each([
    { field: "suiteId", message: /no suite with this id/ },
    { field: "zoneId", message: /no pipeline zone with this id/ },
    { field: "roomId", message: /no room with this id/ },
  ])("an unknown $field is refused by its field", async ({ field, message }) => {
    const input = { ...(await asked()), [field]: unknown };
    await expectRefused(department, setRoom, input, manager, { refusal: "not-found", field, message });
  });

  it("that holds a workstation, or a case, is not retired", async () => {
    const { roomId } = await roomNamed(department, "OR 1");
    const stands = { refusal: "moved-on", field: "roomId", message: /AW-\d+ stands in OR 1/ } as const;
    await expectRefused(department, retireRoom, { roomId }, manager, stands);
  });

  it("with a case in it keeps its gases until the case has ended", async () => {
    await checkWhole(department, "OR 2", await department.person("Ada Vane", ["provider", "technician"]));
    const { roomId } = await roomNamed(department, "OR 2");
    await department.must(startCase, { roomId }, provider);
    const room = (await places()).rooms.find(({ id }) => id === roomId);
    if (!room) throw new Error("OR 2 is not there");
    const { id: _, retired: _r, inUse: _u, workstation: _w, ...rest } = room;
    const refused = { refusal: "moved-on", field: "piped", message: /OR 2 has a case in it/ } as const;
    await expectRefused(department, setRoom, { ...rest, roomId, piped: [] }, manager, refused);
    await department.must(setRoom, { ...rest, roomId, walkingOrder: 77 }, manager);
    await department.must(endCase, { roomId }, provider);
  });

  it("a room that its weekday closes is the same as one that somebody closed: it opens again", async () => {
    const { roomId } = await department.must(setRoom, await asked("Side 4"), manager);
    await department.must(closeRoom, { roomId }, manager);
    await department.must(openRoom, { roomId }, manager);
    expect((await roomNamed(department, "Side 4")).occupancy.state).toBe("idle");
  });
});

describe("models", () => {
  it("names what is wrong with a drive and its gas", async () => {
    const wrong = { refusal: "invalid", field: "driveGas" } as const;
    const bellows = { modelId: null, name: "Harrow 8", ...MODEL, drive: "ascending-bellows" as const };
    await expectRefused(department, setModel, bellows, manager, { ...wrong, message: /Bellows are driven by a gas/ });
    const piston = { modelId: null, name: "Harrow 8", ...MODEL, driveGas: "oxygen" as const };
    await expectRefused(department, setModel, piston, manager, { ...wrong, message: /A piston needs no drive gas/ });
  });

  it("keeps the places of what is fitted to its workstations", async () => {
    const { models, workstations } = await places();
    const carrying = workstations.find(({ parts }) => parts.some(({ kind }) => kind === "cylinder"));
    const model = models.find(({ id }) => id === carrying?.modelId);
    if (!model) throw new Error("no model with a cylinder");
    const { id, workstations: _, ...rest } = model;
    const refused = { refusal: "does-not-fit", field: "yokes", message: /has cylinder .* on yoke/ } as const;
    await expectRefused(department, setModel, { ...rest, modelId: id, yokes: [] }, manager, refused);
    await department.must(setModel, { ...rest, modelId: id, vaporFreeMinutes: 45 }, manager);
    const changed = (await places()).models.find((one) => one.id === id);
    expect(changed?.vaporFreeMinutes).toBe(45);
  });
});

describe("workstations", () => {
  const input = async (more: object = {}) => {
    const { models, stores } = await places();
    return {
      workstationId: null,
      tag: "AW-90",
      serial: "90-1",
      modelId: models[0]?.id ?? "",
      place: { storeId: stores[0]?.id ?? "" },
      ...more,
    };
  };

  it("a tag or a serial number that exists is refused, and by whom it is held is said", async () => {
    const there = (await places()).workstations[0];
    if (!there) throw new Error("no workstation");
    const tag = { refusal: "taken", field: "tag", message: new RegExp(`a workstation ${there.tag} already`) } as const;
    await expectRefused(department, setWorkstation, await input({ tag: there.tag.toLowerCase() }), manager, tag);
    const serial = { refusal: "taken", field: "serial", message: new RegExp(`belongs to ${there.tag}`) } as const;
    const same = await input({ serial: there.serial, modelId: there.modelId });
    await expectRefused(department, setWorkstation, same, manager, serial);
  });

  it("a new one is not put where another stands", async () => {
    const { roomId } = await roomNamed(department, "OR 1");
    const taken = { refusal: "taken", field: "place", message: /AW-\d+ stands in OR 1/ } as const;
    await expectRefused(department, setWorkstation, await input({ place: { roomId } }), manager, taken);
  });

  it("one that is there is not moved here, only by a swap", async () => {
    const workstationId = await workstationIn(department, "OR 1");
    const there = (await places()).workstations.find(({ id }) => id === workstationId);
    const moved = await input({ workstationId, tag: there?.tag, serial: there?.serial, modelId: there?.modelId });
    const refused = { refusal: "invalid", field: "place", message: /is moved by a swap/ } as const;
    await expectRefused(department, setWorkstation, moved, manager, refused);
  });

  it("is retired with its parts to a store, and its room has none", async () => {
    const workstationId = await workstationIn(department, "OR 3");
    const carries = { refusal: "invalid", field: "partsTo", message: /still carries/ } as const;
    await expectRefused(department, retireWorkstation, { workstationId, partsTo: null }, manager, carries);
    const partsTo = (await places()).stores[0]?.id ?? "";
    await department.must(retireWorkstation, { workstationId, partsTo }, manager);
    expect(await roomNamed(department, "OR 3")).toMatchObject({ state: "out-of-service", workstation: null });
    const gone = (await places()).workstations.find(({ id }) => id === workstationId);
    expect(gone).toMatchObject({ retired: true, roomId: null, storeId: null, parts: [] });
    const { roomId } = await roomNamed(department, "OR 3");
    const { tag, serial, modelId } = gone ?? { tag: "", serial: "", modelId: "" };
    await department.must(setWorkstation, { workstationId, tag, serial, modelId, place: { roomId } }, manager);
    expect(await roomNamed(department, "OR 3")).toMatchObject({ workstation: { tag } });
  });
});

describe("the facility itself", () => {
  const site = async () => {
    const { checks: _, ...rest } = await readSite(manager, readingOf(department));
    return rest;
  };

  it("changes its name, unit and words at any time, and every room is judged by the new unit", async () => {
    const before = await site();
    await department.must(
      setSite,
      { ...before, pressureUnit: "kPa", words: { ...before.words, suite: "pod" } },
      manager,
    );
    expect(await site()).toMatchObject({ pressureUnit: "kPa", words: { suite: "pod", wasteGas: "WAGD" } });
    const { roomId } = await roomNamed(department, "OR 1");
    const evidence = await readEvidence(manager, roomId, readingOf(department));
    expect(evidence?.facility.pressureUnit).toBe("kPa");
    await department.must(setSite, before, manager);
  });

  it("keeps its zone and its scheme once checks are on record", async () => {
    const before = await site();
    const zone = {
      refusal: "not-allowed",
      field: "timeZone",
      message: /checks? (is|are) recorded here.*America\/Chicago/,
    } as const;
    await expectRefused(department, setSite, { ...before, timeZone: "Europe/London" }, manager, zone);
    const scheme = { refusal: "not-allowed", field: "scheme", message: /by the US scheme/ } as const;
    await expectRefused(department, setSite, { ...before, scheme: "ISO" }, manager, scheme);
  });
});
