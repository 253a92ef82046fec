import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { claimTask, giveBackTask } from "@/lib/commands/claim-task";
import { finishTask } from "@/lib/commands/finish-task";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import { closeRoom, endCase, openRoom, startCase } from "@/lib/commands/occupancy";
import { swapCylinder } from "@/lib/commands/swap-cylinder";
import { readTasks } from "@/lib/queries/tasks";
import { expectRefused } from "@/tests/support/refusals";
import { checkWhole, given, question, readingOf, roomNamed, workstationIn } from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let technician: Actor;
let provider: Actor;
let charge: Actor;

beforeAll(async () => {
  department = await widerDepartment();
  technician = await department.person("Rosa Osei", ["technician"]);
  provider = await department.person("Karl Brandt", ["provider"]);
  charge = await department.person("Nia Hale", ["charge-provider"]);
});
afterAll(() => department.close());
beforeEach(() => department.clock.add(1));

const unknown = "00000000-0000-4000-8000-000000000000";
const roomId = async (name: string) => (await roomNamed(department, name)).roomId;

describe("a cylinder goes on the yoke that is made for it", () => {
  const fitOn = async (position: string, serial: string, more = {}) => ({
    workstationId: await workstationIn(department, "OR 2"),
    position,
    cylinder: { serial },
    takenOff: "empty" as const,
    ...more,
  });

  it("oxygen does not fit an air yoke: both positions of the pin index are named", async () => {
    const message = /Oxygen cylinder \(pin index 2-5\) does not fit an air yoke \(pin index 1-5\)/;
    await expectRefused(department, swapCylinder, await fitOn("2", "OX-50003"), technician, {
      refusal: "does-not-fit",
      message,
      field: "cylinder",
    });
    const other = /Air cylinder \(pin index 1-5\) does not fit an oxygen yoke \(pin index 2-5\)/;
    await expectRefused(department, swapCylinder, await fitOn("1", "AI-50002"), technician, {
      refusal: "does-not-fit",
      message: other,
      field: "cylinder",
    });
  });

  it.each([
    { serial: "OX-50005", refusal: "does-not-fit", message: /passed its expiry date on 2026-11-23/ },
    { serial: "OX-50006", refusal: "does-not-fit", message: /recorded as empty/ },
    { serial: "OX-50002", refusal: "taken", message: /OX-50002 is fitted to AW-04/ },
    { serial: "OX-00000", refusal: "not-found", message: /no cylinder with the serial number OX-00000/ },
  ] as const)("$serial is refused: $refusal", async ({ serial, refusal, message }) => {
    await expectRefused(department, swapCylinder, await fitOn("1", serial), technician, {
      refusal,
      message,
      field: "cylinder",
    });
  });

  it("a yoke, a workstation or a store that is not there", async () => {
    await expectRefused(department, swapCylinder, await fitOn("7", "OX-50003"), technician, {
      refusal: "not-found",
      message: /no yoke 7; its yokes are 1 \(oxygen\), 2 \(air\), 3 \(oxygen\)/,
      field: "position",
    });
    await expectRefused(
      department,
      swapCylinder,
      await fitOn("1", "OX-50003", { workstationId: unknown }),
      technician,
      { refusal: "not-found", message: /no workstation/, field: "workstationId" },
    );
    await expectRefused(department, swapCylinder, await fitOn("1", "OX-50003", { toStoreId: unknown }), technician, {
      refusal: "not-found",
      message: /no store/,
      field: "toStoreId",
    });
  });

  it("a fitted one takes the place of the old one, which goes to the store as what it is", async () => {
    await department.must(swapCylinder, await fitOn("1", "ox-50003"), technician);
    const cylinders = await department.database.inScope(scopeOf(technician), (tx) =>
      tx.cylinder.findMany({ where: { serial: { in: ["OX-50001", "OX-50003"] } }, orderBy: { serial: "asc" } }),
    );
    expect(cylinders.map(({ contents, storeId }) => [contents, storeId !== null])).toEqual([
      ["empty", true],
      ["in-use", false],
    ]);
  });
});

describe("a case starts in a room that may start", () => {
  it("not in one that nobody checked, and the refusal says what is missing", async () => {
    await expectRefused(department, startCase, { roomId: await roomId("OR 3") }, provider, {
      refusal: "not-allowed",
      message: /^OR 3 may not start: Not checked yet/,
    });
  });

  it("not in one without a workstation, and not in one that is not there", async () => {
    await expectRefused(department, startCase, { roomId: await roomId("Procedure 1") }, provider, {
      refusal: "not-allowed",
      message: /^Procedure 1 may not start/,
    });
    await expectRefused(department, startCase, { roomId: unknown }, provider, {
      refusal: "not-found",
      message: /no room with this id/,
      field: "roomId",
    });
  });

  it("in one that is ready, once; it ends once; and a room with a case in it is not closed", async () => {
    await checkWhole(department, "OR 3", technician);
    const room = { roomId: await roomId("OR 3") };
    await department.must(startCase, room, provider);
    expect((await roomNamed(department, "OR 3")).occupancy).toMatchObject({ state: "in-use", confirmed: true });
    await expectRefused(department, startCase, room, charge, {
      refusal: "moved-on",
      message: /a case is running here/,
    });
    await expectRefused(department, closeRoom, room, charge, {
      refusal: "moved-on",
      message: /a case is running here/,
    });
    await expectRefused(department, openRoom, room, charge, { refusal: "moved-on", message: /not closed/ });
    department.clock.add(90);
    await department.must(endCase, room, technician);
    await expectRefused(department, endCase, room, technician, {
      refusal: "moved-on",
      message: /no case is running here/,
    });
  });

  it("a closed room starts no case until it is opened again", async () => {
    const room = { roomId: await roomId("OR 3") };
    await department.must(closeRoom, room, charge);
    await expectRefused(department, closeRoom, room, charge, { refusal: "moved-on", message: /closed already/ });
    await expectRefused(department, startCase, room, provider, { refusal: "moved-on", message: /closed today/ });
    await expectRefused(department, endCase, room, provider, { refusal: "moved-on", message: /no case is running/ });
    await department.must(openRoom, room, charge);
    expect((await roomNamed(department, "OR 3")).occupancy).toEqual({ state: "idle" });
    await department.must(startCase, room, provider);
    await department.must(endCase, room, provider);
  });
});

describe("a hold stops the workstation until its holder or the charge provider lifts it", () => {
  const hold = async (actor: Actor) => {
    const workstationId = await workstationIn(department, "OR 3");
    const { holdId } = await department.must(holdWorkstation, { workstationId, reason: "A hiss at the yoke." }, actor);
    return { workstationId, holdId, reason: "Washer replaced, tight." };
  };

  it("the room that was ready says so at once, and starts no case", async () => {
    expect((await roomNamed(department, "OR 3")).state).toBe("ready");
    const held = await hold(technician);
    expect(await roomNamed(department, "OR 3")).toMatchObject({
      state: "do-not-use",
      headlineRule: "held",
      headline: expect.stringContaining("A hiss at the yoke."),
    });
    await expectRefused(department, startCase, { roomId: await roomId("OR 3") }, provider, {
      refusal: "not-allowed",
      message: /A hiss at the yoke/,
    });
    await expectRefused(
      department,
      holdWorkstation,
      { workstationId: held.workstationId, reason: "Again." },
      technician,
      { refusal: "already-done", message: /You hold this workstation already/ },
    );
    await expectRefused(department, liftHold, held, provider, {
      refusal: "not-yours",
      message: /Only who holds the workstation, or the charge provider/,
    });
    await department.must(liftHold, held, technician);
    expect((await roomNamed(department, "OR 3")).state).toBe("ready");
    await expectRefused(department, liftHold, held, technician, {
      refusal: "not-found",
      message: /not in force/,
      field: "holdId",
    });
  });

  it("the charge provider lifts another's; of two holds the second still stops", async () => {
    const [first, second] = [await hold(technician), await hold(provider)];
    await department.must(liftHold, first, charge);
    expect((await roomNamed(department, "OR 3")).state).toBe("do-not-use");
    await department.must(liftHold, second, provider);
    expect((await roomNamed(department, "OR 3")).state).toBe("ready");
  });
});

describe("a task is finished by who may, with what it asks for", () => {
  const taskOf = async (name: string, kind: string) => {
    const { tasks } = await readTasks(technician, readingOf(department));
    const task = tasks.find((one) => one.room?.name === name && one.kind === kind);
    if (!task) throw new Error(`no task ${kind} in ${name}: ${tasks.map(({ key }) => key).join(", ")}`);
    return task;
  };

  it("not a task that is gone, nor a check, which is signed instead", async () => {
    const check = await checkWhole(department, "OR 2", technician);
    const answers = [given(question(check, "self-inflating-bag"), { kind: "pass", passed: true })];
    await expectRefused(department, finishTask, { key: `check:${unknown}`, answers }, technician, {
      refusal: "not-found",
      message: /no longer open/,
      field: "key",
    });
    const { key } = await taskOf("OR 1", "check");
    await expectRefused(department, finishTask, { key, answers }, technician, {
      refusal: "invalid",
      message: /finished by signing a check/,
    });
    await expectRefused(department, claimTask, { key: "check:nothing" }, technician, {
      refusal: "not-found",
      message: /no longer open/,
      field: "key",
    });
  });

  it("not with fewer answers than it asks for, not by somebody else while it is claimed, not by a role it is not for", async () => {
    department.clock.add(1);
    const check = await checkWhole(department, "OR 2", technician, (item) =>
      item.item === "cylinder-gauge" && item.subjectName.startsWith("Oxygen")
        ? { kind: "gauge", reading: { value: 400, unit: "psi" }, openWhenRead: true, shutAgain: true }
        : goodAnswer(item),
    );
    const gauge = question(check, "cylinder-gauge", "Oxygen");
    const { key } = await taskOf("OR 2", "swap-cylinder");
    const partly = { key, answers: [given(gauge, goodAnswer(gauge))] };
    await expectRefused(department, finishTask, partly, technician, {
      refusal: "invalid",
      message: /^Still to answer: /,
      field: "answers",
    });
    await expectRefused(department, finishTask, partly, provider, {
      refusal: "not-allowed",
      message: /This task is for: technician/,
    });
    await expectRefused(department, claimTask, { key }, provider, {
      refusal: "not-allowed",
      message: /This task is for: technician/,
    });
    const omar = await department.person("Omar Quist", ["technician"]);
    await department.must(claimTask, { key }, omar);
    await expectRefused(department, finishTask, partly, technician, {
      refusal: "taken",
      message: /Omar Quist has this task/,
    });
    await expectRefused(department, giveBackTask, { key }, technician, {
      refusal: "not-yours",
      message: /Omar Quist has this task/,
    });
    await expectRefused(department, claimTask, { key }, omar, {
      refusal: "already-done",
      message: /You have this task already/,
    });
    await department.must(giveBackTask, { key }, omar);
    await expectRefused(department, giveBackTask, { key }, omar, {
      refusal: "already-done",
      message: /Nobody has this task/,
    });
  });
});
