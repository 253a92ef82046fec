import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { lookAtFault, reportFault } from "@/lib/commands/fault";
import { finishTask } from "@/lib/commands/finish-task";
import { fitPart, removePart } from "@/lib/commands/fit-part";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import { importDepartment } from "@/lib/commands/import-department";
import { endCase, startCase } from "@/lib/commands/occupancy";
import { recordAnswers } from "@/lib/commands/record-answers";
import { signCheck } from "@/lib/commands/sign-check";
import { startCheck } from "@/lib/commands/start-check";
import { swapWorkstation } from "@/lib/commands/swap-workstation";
import { readEvidence } from "@/lib/queries/evidence";
import { readRoom } from "@/lib/queries/room";
import { readSpareParts } from "@/lib/queries/spare-parts";
import { readSpares } from "@/lib/queries/spares";
import { readTask } from "@/lib/queries/task";
import { expectFresh } from "@/tests/support/fresh-readiness";
import { expectRefused } from "@/tests/support/refusals";
import {
  answerRest,
  beginCheck,
  checkSeen,
  checkWhole,
  given,
  question,
  readingOf,
  roomNamed,
  workstationIn,
} from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let technician: Actor;
let provider: Actor;
let engineer: Actor;

const CYLINDERS =
  "serial,gas,scheme,size,water capacity L,rated contents L,rated pressure,rated pressure unit,expiry,retest due,workstation,yoke,store,contents";
/** Two spares with what a list needs, and parts in the stores. */
const SPARES = {
  workstations: "tag,serial,model,room,store\nSP-01,S-1,Ostwick A3,,Workroom\nSP-02,S-2,Ostwick A3,,Cylinder store",
  cylinders: `${CYLINDERS}\nOX-S1,oxygen,US,E,4.8,660,1900,psi,,,SP-01,1,,in use\nOX-S2,oxygen,US,E,4.8,660,1900,psi,,,SP-02,1,,in use`,
  vaporizers:
    "tag,agent,filler,workstation,mount,store,calibration due,window to\nVP-S1,sevoflurane,keyed,SP-01,1,,,\nVP-S2,sevoflurane,keyed,SP-02,1,,,\nVP-90,sevoflurane,keyed,,,Workroom,,\nVP-91,desflurane,keyed,,,Workroom,,",
  absorbent:
    "tag,product,indicator,reverts,strong base,litres per 100 g,mass g,workstation,canister,store\nAB-S1,Calmora violet,yes,yes,no,12,1000,SP-01,1,\nAB-S2,Calmora violet,yes,yes,no,12,1000,SP-02,1,\nAB-90,Calmora violet,yes,yes,no,12,1000,,,Workroom",
  sensors:
    "tag,kind,workstation,store\nOS-S1,galvanic,SP-01,\nOS-S2,galvanic,SP-02,\nOS-90,galvanic,,Workroom\nOS-91,paramagnetic,,Workroom",
};

beforeAll(async () => {
  department = await widerDepartment();
  await department.must(importDepartment, { files: SPARES }, department.admin);
  technician = await department.person("Rosa Osei", ["technician"]);
  provider = await department.person("Karl Brandt", ["provider"]);
  engineer = await department.person("Ines Gort", ["biomedical-engineer"]);
});
afterAll(() => department.close());
beforeEach(() => department.clock.add(1));

const unknown = "00000000-0000-4000-8000-000000000000";
const roomId = async (name: string) => (await roomNamed(department, name)).roomId;
const sparesOf = async (name: string) => {
  const spares = await readSpares(technician, await roomId(name), readingOf(department));
  if (!spares) throw new Error(`no spares for ${name}`);
  return spares;
};
const idOf = async (tag: string) => {
  const found = await department.database.inScope(scopeOf(technician), (tx) =>
    tx.workstation.findFirst({ where: { tag } }),
  );
  if (!found) throw new Error(`no workstation ${tag}`);
  return found.id;
};
const storeId = async (name = "Workroom") => {
  const found = await department.database.inScope(scopeOf(technician), (tx) => tx.store.findFirst({ where: { name } }));
  return found?.id ?? "";
};
/** The whole check of a workstation wherever it stands. */
async function checkSpare(tag: string): Promise<void> {
  const { checkId } = await department.must(startCheck, { workstationId: await idOf(tag), kind: "daily" }, technician);
  const { version } = await answerRest(department, checkId, technician);
  await department.must(signCheck, { checkId, seenVersion: version }, technician);
}
async function finishRecheck(workstationId: string): Promise<void> {
  department.clock.add(1);
  const detail = await readTask(technician, `recheck:${workstationId}`, readingOf(department));
  if (!detail) throw new Error("no recheck is owed");
  const answers = detail.items.map((item) => given(item, goodAnswer(item)));
  await department.must(finishTask, { key: detail.task.key, answers }, technician);
}
const swapInput = async (room: string, incoming: string, more: object = {}) => ({
  roomId: await roomId(room),
  outgoingWorkstationId: await workstationIn(department, room),
  incomingWorkstationId: await idOf(incoming),
  outgoingTo: { store: await storeId() },
  ...more,
});

describe("a workstation is swapped for a spare", () => {
  it("the spares say which fits, what it owes on arrival, and why others do not", async () => {
    await checkWhole(department, "OR 2", technician);
    const before = await sparesOf("OR 2");
    expect(before.suitable).toEqual([]);
    expect(before.unsuitable.find(({ tag }) => tag === "SP-01")).toMatchObject({ acceptable: true, checked: false });
    await checkSpare("SP-01");
    department.clock.add(1);
    const { suitable, outgoing } = await sparesOf("OR 2");
    expect(outgoing?.tag).toBe("AW-03");
    expect(suitable.map(({ tag }) => tag)).toEqual(["SP-01"]);
    expect(suitable[0]?.owed.map(({ item }) => item).sort()).toEqual([
      "final-state",
      // Asked where nitrous oxide is at hand, as it is in this room and was not in the store.
      "hypoxic-guard",
      "mains-power",
      ...["pipeline-pressure", "pipeline-pressure", "pipeline-pressure"],
      "scavenging-extraction",
    ]);
    // The workroom lies behind OR 3 on the walk, and nobody said where the cylinder store lies.
    expect([suitable[0]?.distance, before.unsuitable.find(({ tag }) => tag === "SP-02")?.distance]).toEqual([1, null]);
    expect(suitable[0]).toMatchObject({ roomRemains: [], minutes: 25 + 7 * 2 });
  });

  it("owes exactly that when it stands there, and is ready when that is done", async () => {
    const { suitable } = await sparesOf("OR 2");
    const expected = suitable[0]?.owed;
    const reply = await department.must(swapWorkstation, await swapInput("OR 2", "SP-01"), technician);
    expect(reply.owed).toEqual(expected);
    const room = await roomNamed(department, "OR 2");
    expect(room).toMatchObject({ state: "to-check", workstation: { tag: "SP-01" } });
    const view = await readRoom(technician, room.roomId, readingOf(department));
    expect(view?.judgement.owed.map(({ item, subject }) => [item, subject])).toEqual(
      reply.owed.map(({ item, subject }) => [item, subject]),
    );
    const states = await expectFresh(department);
    expect(states["AW-03"]).toBe("ready");
    await finishRecheck(await idOf("SP-01"));
    expect((await roomNamed(department, "OR 2")).state).toBe("ready");
    await expectFresh(department);
  });

  it("an unchecked one carries no check of the one that went out", async () => {
    await expectRefused(department, swapWorkstation, await swapInput("OR 2", "SP-02"), technician, {
      refusal: "does-not-fit",
      message: /SP-02 has not been checked today.*its whole check is then owed in OR 2/,
      field: "acceptUnchecked",
    });
    await department.must(swapWorkstation, await swapInput("OR 2", "SP-02", { acceptUnchecked: true }), technician);
    const view = await readRoom(technician, await roomId("OR 2"), readingOf(department));
    expect(view?.judgement.marks.equipment).toBeNull();
    expect(view?.judgement.state).toBe("to-check");
    expect(view?.confirmable).toBeNull();
    await expectFresh(department);
  });

  it("two rooms change places, and both owe what a move makes due", async () => {
    const [two, three] = [await workstationIn(department, "OR 2"), await workstationIn(department, "OR 3")];
    const input = await swapInput("OR 2", "AW-04", { outgoingTo: "exchange", acceptUnchecked: true });
    await department.must(swapWorkstation, input, technician);
    expect([await workstationIn(department, "OR 2"), await workstationIn(department, "OR 3")]).toEqual([three, two]);
    await expectFresh(department);
  });
});

describe("a check that was open when its workstation was moved", () => {
  const FAILS = { kind: "pass", passed: false } as const;
  const failingBags = async (room: string) =>
    (await readEvidence(technician, await roomId(room), readingOf(department)))?.observations.filter(
      ({ item, verdict }) => item === "self-inflating-bag" && verdict === "fail",
    ).length;

  it("speaks of the room it was begun in for what was seen there, and of the new one for what is seen there", async () => {
    const check = await beginCheck(department, "OR 2", technician);
    const bag = question(check, "self-inflating-bag");
    await department.must(recordAnswers, { checkId: check.id, answers: [given(bag, goodAnswer(bag))] }, technician);
    const input = await swapInput("OR 2", await tagIn("OR 3"), { outgoingTo: "exchange", acceptUnchecked: true });
    await department.must(swapWorkstation, input, technician);
    await expectFresh(department);
    const moved = await checkSeen(department, check.id, technician);
    const there = question(moved, "self-inflating-bag");
    expect(there.subject.id).toBe(await roomId("OR 3"));
    await department.must(recordAnswers, { checkId: check.id, answers: [given(there, FAILS)] }, technician);
    expect([await failingBags("OR 2"), await failingBags("OR 3")]).toEqual([0, 1]);
    await expectFresh(department);
    const { version } = await answerRest(department, check.id, technician);
    await department.must(signCheck, { checkId: check.id, seenVersion: version }, technician);
    await expectFresh(department);
    department.clock.add(1);
    await checkWhole(department, "OR 3", technician);
    const back = await swapInput("OR 2", await tagIn("OR 3"), { outgoingTo: "exchange", acceptUnchecked: true });
    await department.must(swapWorkstation, back, technician);
    // Signed there, and read as it was signed, wherever the workstation stands now.
    const signed = await checkSeen(department, check.id, technician);
    expect(signed.items.map(({ subject }) => subject)).toContainEqual(bag.subject);
  });
  const tagIn = async (room: string) => (await roomNamed(department, room)).workstation?.tag ?? "";
});

describe("a swap is refused", () => {
  it.each([
    {
      name: "the workstation seen is not there",
      more: { outgoingWorkstationId: unknown },
      refusal: "moved-on",
      message: /OR 2 holds AW-04 by now/,
      field: "outgoingWorkstationId",
    },
    {
      name: "no such workstation",
      more: { incomingWorkstationId: unknown },
      refusal: "not-found",
      message: /no workstation/,
      field: "incomingWorkstationId",
    },
    {
      name: "no such store",
      more: { outgoingTo: { store: unknown } },
      refusal: "not-found",
      message: /no store/,
      field: "outgoingTo.store",
    },
    {
      name: "nowhere to go",
      more: { outgoingTo: null },
      refusal: "invalid",
      message: /Say where AW-04 goes/,
      field: "outgoingTo",
    },
    {
      name: "no place to exchange with",
      more: { outgoingTo: "exchange" },
      refusal: "invalid",
      message: /SP-01 stands in a store/,
      field: "outgoingTo",
    },
    { name: "no such room", more: { roomId: unknown }, refusal: "not-found", message: /no room/, field: "roomId" },
  ] as const)("$name", async ({ more, refusal, message, field }) => {
    await expectRefused(department, swapWorkstation, (await swapInput("OR 2", "SP-01", more)) as never, technician, {
      refusal,
      message,
      field,
    });
  });

  it("one that stands in another room, unless the two change places", async () => {
    await expectRefused(department, swapWorkstation, await swapInput("OR 2", "SP-02"), technician, {
      refusal: "taken",
      message: /SP-02 stands in OR 3/,
      field: "incomingWorkstationId",
    });
  });

  it("one that is held, with the reason", async () => {
    const workstationId = await idOf("SP-01");
    const { holdId } = await department.must(
      holdWorkstation,
      { workstationId, reason: "Smells of burning." },
      engineer,
    );
    await expectRefused(department, swapWorkstation, await swapInput("OR 2", "SP-01"), technician, {
      refusal: "does-not-fit",
      message: /SP-01 may not be used: .*Smells of burning/,
      field: "incomingWorkstationId",
    });
    expect((await sparesOf("OR 2")).unsuitable.find(({ tag }) => tag === "SP-01")).toMatchObject({
      acceptable: false,
      why: expect.stringContaining("Smells of burning"),
    });
    await department.must(liftHold, { workstationId, holdId, reason: "It was the toaster." }, engineer);
  });

  it("while a case runs in the room", async () => {
    await checkWhole(department, "OR 2", technician);
    await department.must(startCase, { roomId: await roomId("OR 2") }, provider);
    await expectRefused(department, swapWorkstation, await swapInput("OR 2", "AW-03"), technician, {
      refusal: "not-allowed",
      message: /A case is running in OR 2/,
      field: "roomId",
    });
    await department.must(endCase, { roomId: await roomId("OR 2") }, provider);
  });
});

describe("two at once", () => {
  it("swap the same spare into two rooms: it stands in one, and nothing stored is stale", async () => {
    const inputs = [await swapInput("OR 2", "AW-03"), await swapInput("OR 3", "AW-03")];
    const outcomes = await Promise.all(inputs.map((input) => department.run(swapWorkstation, input, technician)));
    expect(outcomes.filter(({ ok }) => ok).length).toBe(1);
    expect(outcomes.find(({ ok }) => !ok)).toMatchObject({
      refusal: "taken",
      message: expect.stringMatching(/AW-03 stands in OR [23]/),
    });
    await expectFresh(department);
  });

  it("swap two spares into one room: the second is told what stands there by now", async () => {
    const room = await roomNamed(department, "OR 3");
    const others = (await sparesOf("OR 3")).unsuitable.filter(({ acceptable }) => acceptable).map(({ tag }) => tag);
    const suitable = (await sparesOf("OR 3")).suitable.map(({ tag }) => tag);
    const [first = "", second = ""] = [...suitable, ...others];
    const inputs = [
      await swapInput("OR 3", first, { acceptUnchecked: true }),
      await swapInput("OR 3", second, { acceptUnchecked: true }),
    ];
    const outcomes = await Promise.all(inputs.map((input) => department.run(swapWorkstation, input, technician)));
    expect(outcomes.filter(({ ok }) => ok).length).toBe(1);
    expect(outcomes.find(({ ok }) => !ok)).toMatchObject({
      refusal: "moved-on",
      message: expect.stringMatching(/OR 3 holds .* by now/),
    });
    expect((await roomNamed(department, "OR 3")).workstation?.id).not.toBe(room.workstation?.id);
    await expectFresh(department);
  });

  it("a hold on a workstation that is being swapped out: whoever is second judges what stands there then", async () => {
    for (let turn = 0; turn < 6; turn += 1) {
      department.clock.add(1);
      const out = await workstationIn(department, "OR 2");
      const spares = await sparesOf("OR 2");
      const spare = [...spares.suitable, ...spares.unsuitable.filter(({ acceptable }) => acceptable)][0];
      if (!spare) break;
      const input = await swapInput("OR 2", spare.tag, { acceptUnchecked: true });
      const hold = { workstationId: out, reason: `A noise in turn ${turn}.` };
      const order = [
        () => department.run(swapWorkstation, input, technician),
        () => department.run(holdWorkstation, hold, turn % 2 === 0 ? provider : engineer),
      ];
      await Promise.all((turn % 2 === 0 ? order : order.reverse()).map((run) => run()));
      await expectFresh(department);
    }
  });
});

describe("parts", () => {
  const evidenceOf = async (name: string) => {
    const evidence = await readEvidence(technician, await roomId(name), readingOf(department));
    if (!evidence?.workstation) throw new Error(`no workstation in ${name}`);
    return evidence.workstation;
  };
  const owedIn = async (name: string) =>
    (await readRoom(technician, await roomId(name), readingOf(department)))?.judgement.owed.map(({ item }) => item) ??
    [];
  const partId = async (tag: string) => {
    const parts = await readSpareParts(technician, await roomId("OR 1"), readingOf(department));
    const all = [...(parts?.vaporizers ?? []), ...(parts?.absorbent ?? []), ...(parts?.oxygenSensors ?? [])];
    return all.find((part) => part.tag === tag)?.id ?? "";
  };

  it("a vaporizer swapped at turnover owes both leak tests' items and no whole check", async () => {
    await checkWhole(department, "OR 1", technician);
    department.clock.add(1);
    const { id, fitted } = await evidenceOf("OR 1");
    const [on] = fitted.vaporizers;
    const input = {
      workstationId: id,
      part: { kind: "vaporizer" as const, which: { tag: "vp-90" }, agent: "sevoflurane" as const },
      position: on?.mount ?? "",
      takesOff: on?.id ?? null,
    };
    const reply = await department.must(fitPart, input, provider);
    expect(reply).toMatchObject({ fitted: "VP-90", takenOff: on?.tag, recheckTaskKey: `recheck:${id}` });
    const owed = await owedIn("OR 1");
    for (const item of ["vaporizer-seated", "filler-closed", "vaporizer-fill", "low-pressure-leak", "fresh-gas-hose"])
      expect(owed).toContain(item);
    expect(owed).not.toContain("cylinder-gauge");
    await expectFresh(department);
    await finishRecheck(id);
    expect((await roomNamed(department, "OR 1")).state).toBe("ready");
  });

  it("a vaporizer taken from another workstation leaves that one its leak test to do", async () => {
    await checkWhole(department, "OR 3", technician);
    department.clock.add(1);
    const here = await evidenceOf("OR 1");
    const there = await evidenceOf("OR 3");
    const [moving] = there.fitted.vaporizers;
    const mount = here.model.mounts[0] ?? "";
    const input = {
      workstationId: here.id,
      part: { kind: "vaporizer" as const, which: { id: moving?.id ?? "" } },
      position: mount,
      takesOff: here.fitted.vaporizers.find((one) => one.mount === mount)?.id ?? null,
    };
    await expectRefused(department, fitPart, input, technician, {
      refusal: "taken",
      message: /is fitted to .*Say that it is taken from there/,
      field: "part",
    });
    await department.must(fitPart, { ...input, takenFrom: there.id }, technician);
    expect((await evidenceOf("OR 3")).fitted.vaporizers).toEqual([]);
    const owedThere = await owedIn("OR 3");
    expect(owedThere).toContain("low-pressure-leak");
    expect(owedThere).not.toContain("cylinder-gauge");
    expect(await owedIn("OR 1")).toContain("low-pressure-leak");
    await expectFresh(department);
  });

  it("a vaporizer taken off goes to a store, and its mount owes the leak test", async () => {
    const { id, fitted } = await evidenceOf("OR 1");
    const [on] = fitted.vaporizers;
    await finishRecheck(id);
    department.clock.add(1);
    const reply = await department.must(
      removePart,
      { workstationId: id, kind: "vaporizer", partId: on?.id ?? "" },
      technician,
    );
    expect(reply.removed).toBe(on?.tag);
    expect(await owedIn("OR 1")).toContain("low-pressure-leak");
    const parts = await readSpareParts(technician, await roomId("OR 1"), readingOf(department));
    expect(parts?.vaporizers.find(({ tag }) => tag === on?.tag)).toMatchObject({
      fittedTo: null,
      store: { name: expect.any(String) },
    });
    await expectRefused(
      department,
      removePart,
      { workstationId: id, kind: "vaporizer", partId: on?.id ?? "" },
      technician,
      {
        refusal: "moved-on",
        message: /does not carry this vaporizer/,
        field: "partId",
      },
    );
    await expectFresh(department);
  });

  it("absorbent: a charge from a store, or the same product again; the old one is used up", async () => {
    const { id, fitted } = await evidenceOf("OR 1");
    const [old] = fitted.absorbent;
    const base = { workstationId: id, position: old?.position ?? "", takesOff: old?.id ?? null };
    const first = await department.must(
      fitPart,
      { ...base, part: { kind: "absorbent", which: { tag: "AB-90" } } },
      technician,
    );
    expect(first).toMatchObject({ fitted: "AB-90", takenOff: old?.tag });
    expect(await owedIn("OR 1")).toContain("breathing-leak");
    const again = { ...base, takesOff: await fittedAbsorbent("OR 1") };
    await expectRefused(
      department,
      fitPart,
      { ...again, part: { kind: "absorbent", which: { id: old?.id ?? "" } } },
      technician,
      {
        refusal: "does-not-fit",
        message: /was taken off and used up/,
        field: "part",
      },
    );
    const second = await department.must(
      fitPart,
      { ...again, part: { kind: "absorbent", which: { sameProduct: true } } },
      technician,
    );
    expect(second).toMatchObject({ fitted: "AB-90/2", takenOff: "AB-90" });
    await expectFresh(department);
  });
  const fittedAbsorbent = async (name: string) => (await evidenceOf(name)).fitted.absorbent[0]?.id ?? null;

  it("an oxygen sensor replaced owes its own items; one of another kind does not fit", async () => {
    const { id, fitted, model } = await evidenceOf("OR 3");
    expect(model.oxygenSensor).toBe("galvanic");
    const base = { workstationId: id, position: "1", takesOff: fitted.oxygenSensor?.id ?? null };
    await expectRefused(
      department,
      fitPart,
      { ...base, part: { kind: "oxygen-sensor", which: { tag: "OS-91" } } },
      engineer,
      {
        refusal: "does-not-fit",
        message: /measures oxygen with a galvanic sensor, and OS-91 is paramagnetic/,
        field: "part",
      },
    );
    await department.must(fitPart, { ...base, part: { kind: "oxygen-sensor", which: { tag: "OS-90" } } }, engineer);
    expect(await owedIn("OR 3")).toEqual(
      expect.arrayContaining(["oxygen-in-air", "oxygen-after-flush", "low-oxygen-alarm"]),
    );
    await expectFresh(department);
  });

  it.each([
    {
      part: { kind: "vaporizer", which: { tag: "VP-91" }, agent: "sevoflurane" },
      position: "1",
      refusal: "does-not-fit",
      message: /VP-91 is for desflurane, and its label was read as sevoflurane/,
      field: "part.agent",
    },
    {
      part: { kind: "vaporizer", which: { tag: "VP-91" } },
      position: "9",
      refusal: "does-not-fit",
      message: /has no mount 9; it has 1, 2/,
      field: "position",
    },
    {
      part: { kind: "vaporizer", which: { tag: "VP-00" } },
      position: "1",
      refusal: "not-found",
      message: /no vaporizer with the tag VP-00/,
      field: "part",
    },
    {
      part: { kind: "vaporizer", which: { tag: "VP-91" } },
      position: "2",
      takesOff: unknown,
      refusal: "moved-on",
      message: /Place 2 holds nothing by now/,
      field: "takesOff",
    },
    {
      part: { kind: "vaporizer", which: { tag: "VP-91" } },
      position: "2",
      takenFrom: unknown,
      refusal: "moved-on",
      message: /fitted to no workstation by now/,
      field: "takenFrom",
    },
    {
      part: { kind: "vaporizer", which: { tag: "VP-91" } },
      position: "2",
      toStoreId: unknown,
      refusal: "not-found",
      message: /no store/,
      field: "toStoreId",
    },
  ] as const)("refused: $message", async ({ refusal, message, field, ...input }) => {
    const { id } = await evidenceOf("OR 3");
    await expectRefused(department, fitPart, { workstationId: id, takesOff: null, ...input } as never, technician, {
      refusal,
      message,
      field,
    });
  });

  it("two people fit one vaporizer to two workstations: it goes to one", async () => {
    const places = await Promise.all(["OR 1", "OR 3"].map(evidenceOf));
    const outcomes = await Promise.all(
      places.map(async ({ id, fitted, model }) => {
        const position = model.mounts[0] ?? "";
        const takesOff = fitted.vaporizers.find(({ mount }) => mount === position)?.id ?? null;
        return department.run(
          fitPart,
          { workstationId: id, part: { kind: "vaporizer", which: { id: await partId("VP-91") } }, position, takesOff },
          technician,
        );
      }),
    );
    expect(outcomes.filter(({ ok }) => ok).length).toBe(1);
    expect(outcomes.find(({ ok }) => !ok)).toMatchObject({ refusal: "taken" });
    await expectFresh(department);
  });
});

describe("a fault in words", () => {
  it("stops the room when its reporter would not use it, until somebody has looked", async () => {
    await checkWhole(department, "OR 2", technician);
    const workstationId = await workstationIn(department, "OR 2");
    const fault = { workstationId, text: "The bellows stick.", wouldNotUse: false };
    await department.must(reportFault, fault, provider);
    const before = (await roomNamed(department, "OR 2")).state;
    expect(before).not.toBe("do-not-use");
    await expectRefused(department, reportFault, { ...fault, text: "the  bellows stick." }, provider, {
      refusal: "already-done",
      message: /reported already/,
      field: "text",
    });
    department.clock.add(1);
    const { faultId } = await department.must(reportFault, { ...fault, wouldNotUse: true }, provider);
    expect(await roomNamed(department, "OR 2")).toMatchObject({ state: "do-not-use", headlineRule: "fault-reported" });
    const view = await readRoom(provider, await roomId("OR 2"), readingOf(department));
    expect(view?.faults.map(({ name, wouldNotUse }) => [name, wouldNotUse])).toEqual([
      ["Karl Brandt", false],
      ["Karl Brandt", true],
    ]);
    expect(view?.tasks.find(({ why }) => why.includes("would not use it"))?.mayDo).toEqual([
      "technician",
      "biomedical-engineer",
    ]);
    await department.must(lookAtFault, { workstationId, faultId, conclusion: "Cleaned, moves freely." }, technician);
    expect((await roomNamed(department, "OR 2")).state).toBe(before);
    await expectRefused(department, lookAtFault, { workstationId, faultId, conclusion: "Again." }, technician, {
      refusal: "not-found",
      message: /somebody may have looked at it already/,
      field: "faultId",
    });
    await expectFresh(department);
  });

  it("two people look at it at once: one conclusion stands", async () => {
    const workstationId = await workstationIn(department, "OR 2");
    const { faultId } = await department.must(
      reportFault,
      { workstationId, text: "A hiss.", wouldNotUse: true },
      provider,
    );
    const outcomes = await Promise.all(
      [technician, engineer].map((actor) =>
        department.run(lookAtFault, { workstationId, faultId, conclusion: "Tight." }, actor),
      ),
    );
    expect(outcomes.filter(({ ok }) => ok).length).toBe(1);
    await expectFresh(department);
  });
});
