import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { changeProvider } from "@/lib/commands/change-provider";
import { useInEmergency } from "@/lib/commands/emergency-use";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import { closeRoom, endCase, openRoom, startCase } from "@/lib/commands/occupancy";
import { readEmergencies } from "@/lib/queries/emergencies";
import { readRoom } from "@/lib/queries/room";
import { expectFresh } from "@/tests/support/fresh-readiness";
import { expectRefused } from "@/tests/support/refusals";
import { checkWhole, readingOf, roomNamed } from "@/tests/support/room-work";
import type { SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let technician: Actor;
let provider: Actor;
let relief: Actor;
let charge: Actor;

beforeAll(async () => {
  department = await widerDepartment();
  technician = await department.person("Rosa Osei", ["technician"]);
  provider = await department.person("Karl Brandt", ["provider"]);
  relief = await department.person("Mina Voss", ["provider"]);
  charge = await department.person("Nia Hale", ["charge-provider"]);
});
afterAll(() => department.close());
beforeEach(() => department.clock.add(1));

const unknown = "00000000-0000-4000-8000-000000000000";
const roomId = async (name: string) => (await roomNamed(department, name)).roomId;
const reason = "Ruptured aneurysm, no other room.";
const uses = async () =>
  (await readEmergencies(charge, { from: "2026-11-24", to: "2026-11-24" }, readingOf(department))).uses;
const viewOf = async (name: string) => {
  const view = await readRoom(charge, await roomId(name), readingOf(department));
  if (!view) throw new Error(`no room ${name}`);
  return view;
};

describe("a case that cannot wait begins in a room that may not start", () => {
  it("who and why are on record, the state stays what it is, and the review lists it", async () => {
    const before = await roomNamed(department, "OR 2");
    expect(before.state).toBe("to-check");
    await department.must(useInEmergency, { roomId: before.roomId, reason }, provider);
    expect(await roomNamed(department, "OR 2")).toMatchObject({ state: "to-check", occupancy: { state: "in-use" } });
    expect(await uses()).toMatchObject([
      {
        roomName: "OR 2",
        workstationTag: "AW-03",
        name: "Karl Brandt",
        role: "provider",
        reason,
        state: "to-check",
        endedAt: null,
        checkedSince: false,
      },
    ]);
    await expectFresh(department);
  });

  it("a check from before it no longer counts when the case has ended; a new one does", async () => {
    const room = await roomNamed(department, "OR 2");
    await department.must(endCase, { roomId: room.roomId }, provider);
    expect((await roomNamed(department, "OR 2")).state).toBe("to-check");
    department.clock.add(1);
    await checkWhole(department, "OR 2", technician);
    expect((await roomNamed(department, "OR 2")).state).toBe("ready");
    expect(await uses()).toMatchObject([{ checkedSince: true, endedAt: expect.any(String) }]);
    await expectFresh(department);
  });

  it("what was checked before it does not count afterwards, also when what stood in the way is gone", async () => {
    const { roomId: two, workstation } = await roomNamed(department, "OR 2");
    const workstationId = workstation?.id ?? "";
    const hold = { workstationId, reason: "A hiss at the yoke." };
    const { holdId } = await department.must(holdWorkstation, hold, technician);
    await department.must(useInEmergency, { roomId: two, reason }, provider);
    expect((await uses())[0]).toMatchObject({
      state: "do-not-use",
      why: expect.stringContaining("A hiss at the yoke."),
    });
    department.clock.add(60);
    await department.must(liftHold, { workstationId, holdId, reason: "Washer replaced, tight." }, technician);
    await department.must(endCase, { roomId: two }, provider);
    expect((await roomNamed(department, "OR 2")).state).toBe("to-check");
    await expectFresh(department);
    department.clock.add(1);
    await checkWhole(department, "OR 2", technician);
    expect((await roomNamed(department, "OR 2")).state).toBe("ready");
  });

  it("is refused where the case may start as usual, is running, or the room is closed or not there", async () => {
    const two = { roomId: await roomId("OR 2"), reason };
    await expectRefused(department, useInEmergency, two, provider, {
      refusal: "not-allowed",
      message: /OR 2 may start: start the case as usual/,
    });
    await department.must(startCase, { roomId: two.roomId }, provider);
    await expectRefused(department, useInEmergency, two, provider, {
      refusal: "moved-on",
      message: /A case is running in OR 2 already/,
    });
    const three = { roomId: await roomId("OR 3") };
    await department.must(closeRoom, three, charge);
    await expectRefused(department, useInEmergency, { ...three, reason }, provider, {
      refusal: "moved-on",
      message: /OR 3 is closed today/,
    });
    await department.must(openRoom, three, charge);
    await expectRefused(department, useInEmergency, { roomId: unknown, reason }, provider, {
      refusal: "not-found",
      message: /no room/,
      field: "roomId",
    });
  });

  it("two people say so at once: one case begins, one record is kept", async () => {
    const input = { roomId: await roomId("OR 3"), reason };
    const outcomes = await Promise.all([provider, charge].map((actor) => department.run(useInEmergency, input, actor)));
    expect(outcomes.filter(({ ok }) => ok).length).toBe(1);
    expect(outcomes.find(({ ok }) => !ok)).toMatchObject({ refusal: "moved-on" });
    expect((await uses()).filter(({ roomName }) => roomName === "OR 3").length).toBe(1);
    await expectFresh(department);
  });

  it("also in a room without a workstation, where nothing is left to be checked", async () => {
    await department.must(useInEmergency, { roomId: await roomId("Procedure 1"), reason }, charge);
    expect((await uses())[0]).toMatchObject({ roomName: "Procedure 1", workstationTag: null, state: "out-of-service" });
    await expectFresh(department);
  });
});

describe("a change of provider in a running case", () => {
  it("is on record confirmed or not, and moves no state", async () => {
    const input = { roomId: await roomId("OR 2") };
    const before = await viewOf("OR 2");
    await department.must(
      changeProvider,
      { ...input, confirmed: false, note: "Straight into a difficult airway." },
      relief,
    );
    department.clock.add(30);
    await department.must(changeProvider, { ...input, confirmed: true }, charge);
    const after = await viewOf("OR 2");
    expect(after.providerChanges.map(({ name, confirmed }) => [name, confirmed])).toEqual([
      ["Nia Hale", true],
      ["Mina Voss", false],
    ]);
    expect(after.judgement.state).toBe(before.judgement.state);
    await expectFresh(department);
  });

  it("is refused where no case is running", async () => {
    await department.must(endCase, { roomId: await roomId("OR 2") }, provider);
    await expectRefused(department, changeProvider, { roomId: await roomId("OR 2"), confirmed: true }, relief, {
      refusal: "moved-on",
      message: /No case is running in OR 2/,
    });
    await expectRefused(department, changeProvider, { roomId: unknown, confirmed: true }, relief, {
      refusal: "not-found",
      message: /no room/,
      field: "roomId",
    });
  });
});
