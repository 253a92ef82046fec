import { describe, expect, it } from "vitest";
import type { GivenAnswer } from "@/lib/domain/check/model";
import { carryAnswers } from "@/lib/domain/check-correction";
import type { Evidence, WorkstationEvidence } from "@/lib/domain/evidence";
import type { ItemId, Subject } from "@/lib/domain/items";
import { decideFit, decideRemove } from "@/lib/domain/part/decide";
import type { Candidate, FitAsked } from "@/lib/domain/part/model";
import { needsOfTask, pickLines } from "@/lib/domain/pick-list";
import { expandProcedure } from "@/lib/domain/procedure/decide";
import { quantity } from "@/lib/units/quantity";
import { instant } from "@/lib/units/time";
import { procedureFor, readyRoom } from "@/tests/support/ready-room";

const ready = readyRoom("US");
const workstationOf = ({ workstation }: Evidence): WorkstationEvidence => {
  if (!workstation) throw new Error("the ready room has a workstation");
  return workstation;
};
const workstation = workstationOf(ready);
const [vaporizer] = workstation.fitted.vaporizers;
const mount = vaporizer?.mount ?? "";
const [charge] = workstation.fitted.absorbent;

const candidate = (more: Partial<Candidate> = {}): Candidate => ({
  kind: "vaporizer",
  id: "vp-9",
  tag: "VP-09",
  agent: "sevoflurane",
  sensorKind: null,
  storeId: "workroom",
  used: false,
  fittedTo: null,
  ...more,
});
const asked = (more: Partial<FitAsked> = {}): FitAsked => ({
  kind: "vaporizer",
  position: mount,
  takesOff: vaporizer?.id ?? null,
  takenFrom: null,
  agentSeen: null,
  candidate: candidate(),
  ...more,
});
const elsewhere = { workstationId: "other", tag: "AW-9", position: "1" };
const inUse: Evidence = {
  ...ready,
  room: ready.room && {
    ...ready.room,
    name: "OR 9",
    occupancy: { state: "in-use", since: ready.now, confirmed: true },
  },
};

describe("a part goes to a place", () => {
  it("takes off what is there", () => {
    expect(decideFit(workstation, asked(), null)).toEqual({
      ok: true,
      value: { takenOff: { id: vaporizer?.id, tag: vaporizer?.tag, position: mount }, leaves: null },
    });
  });

  it.each([
    { name: "no such mount", more: { position: "99" }, refusal: "does-not-fit", field: "position" },
    { name: "another is there by now", more: { takesOff: "vp-7" }, refusal: "moved-on", field: "takesOff" },
    { name: "it was seen empty", more: { takesOff: null }, refusal: "moved-on", field: "takesOff" },
    {
      name: "the label says another agent",
      more: { agentSeen: "desflurane" as const },
      refusal: "does-not-fit",
      field: "part.agent",
    },
    {
      name: "it sits elsewhere",
      more: { candidate: candidate({ fittedTo: elsewhere }) },
      refusal: "taken",
      field: "part",
    },
    {
      name: "it is said to sit elsewhere and does not",
      more: { takenFrom: "other" },
      refusal: "moved-on",
      field: "takenFrom",
    },
    {
      name: "a sensor of another kind",
      more: {
        kind: "oxygen-sensor" as const,
        position: "1",
        candidate: candidate({ kind: "oxygen-sensor", agent: null, sensorKind: "paramagnetic" }),
      },
      refusal: "does-not-fit",
      field: "part",
    },
    {
      name: "spent absorbent",
      more: {
        kind: "absorbent" as const,
        position: charge?.position ?? "",
        candidate: candidate({ kind: "absorbent", agent: null, storeId: null, used: true }),
      },
      refusal: "does-not-fit",
      field: "part",
    },
    {
      name: "absorbent that another workstation has",
      more: {
        kind: "absorbent" as const,
        position: charge?.position ?? "",
        takenFrom: "other",
        candidate: candidate({ kind: "absorbent", agent: null, fittedTo: elsewhere }),
      },
      refusal: "taken",
      field: "part",
    },
  ])("$name: $refusal", ({ more, refusal, field }) => {
    expect(decideFit(workstation, asked(more), null)).toMatchObject({ ok: false, refusal, field });
  });

  it("a vaporizer is moved from another workstation, unless a case runs there", () => {
    const moving = asked({ candidate: candidate({ fittedTo: elsewhere }), takenFrom: "other" });
    expect(decideFit(workstation, moving, ready)).toMatchObject({ ok: true, value: { leaves: "other" } });
    expect(decideFit(workstation, moving, inUse)).toMatchObject({
      refusal: "not-allowed",
      message: /A case is running in OR 9/,
    });
  });

  it("between two mounts of one workstation nothing is left behind; on its own mount it is already", () => {
    const own = candidate({ fittedTo: { workstationId: workstation.id, tag: workstation.tag, position: "elsewhere" } });
    expect(decideFit(workstation, asked({ candidate: own, takenFrom: workstation.id }), null)).toMatchObject({
      ok: true,
      value: { leaves: null },
    });
    const same = candidate({ fittedTo: { workstationId: workstation.id, tag: workstation.tag, position: mount } });
    expect(decideFit(workstation, asked({ candidate: same, takenFrom: workstation.id }), null)).toMatchObject({
      refusal: "already-done",
    });
  });

  it("the same product again needs something to be the same as", () => {
    const base = { kind: "absorbent" as const, candidate: null };
    const there = asked({ ...base, position: charge?.position ?? "", takesOff: charge?.id ?? null });
    expect(decideFit(workstation, there, null).ok).toBe(true);
    const bare = { ...workstation, fitted: { ...workstation.fitted, absorbent: [] } };
    expect(decideFit(bare, asked({ ...base, position: "1", takesOff: null }), null)).toMatchObject({
      refusal: "invalid",
      field: "part",
    });
  });

  it("a vaporizer that is not there is not taken off", () => {
    expect(decideRemove(workstation, vaporizer?.id ?? "").ok).toBe(true);
    expect(decideRemove(workstation, "vp-9")).toMatchObject({ refusal: "moved-on", field: "partId" });
  });
});

describe("answers of the wrong workstation", () => {
  const given = (item: ItemId, subject: Subject, answer: GivenAnswer["answer"]): GivenAnswer => ({
    id: `${item}-${subject.id}`,
    item,
    subject,
    answer,
    verdict: "pass",
    observedAt: instant(0),
    by: "rosa",
  });
  const works = { kind: "pass", passed: true } as const;
  const right = JSON.parse(
    JSON.stringify(ready)
      .replaceAll(workstation.id, "right")
      .replaceAll(/"(cylinder|vaporizer|absorbent)-/g, '"right-$1-'),
  ) as Evidence;
  const questions = expandProcedure(procedureFor("US"), right);
  const [cylinder] = workstation.fitted.cylinders;
  const gauge = given(
    "cylinder-gauge",
    { kind: "cylinder", id: cylinder?.id ?? "" },
    { kind: "gauge", reading: quantity(1_900, "psi"), openWhenRead: true, shutAgain: true },
  );

  it("are carried to the part in the same place", () => {
    const { carried, dropped } = carryAnswers(
      [gauge, given("valves", { kind: "workstation", id: workstation.id }, works)],
      ready,
      right,
      questions,
    );
    expect(dropped).toEqual([]);
    expect(carried.map(({ subject }) => subject)).toEqual([
      { kind: "cylinder", id: `right-${cylinder?.id}` },
      { kind: "workstation", id: "right" },
    ]);
  });

  it("are told where there is no such part, and where they cannot be", () => {
    const bare: Evidence = {
      ...right,
      room: null,
      workstation: { ...workstationOf(right), fitted: { ...workstationOf(right).fitted, cylinders: [] } },
    };
    const { carried, dropped } = carryAnswers(
      [gauge, given("suction", { kind: "room", id: ready.room?.id ?? "" }, works)],
      ready,
      bare,
      questions,
    );
    expect(carried).toEqual([]);
    expect(dropped.map(({ itemName, why }) => [itemName, why])).toEqual([
      ["Cylinder gauge", "has nothing in the same place there"],
      ["Suction", "has nothing in the same place there"],
    ]);
    const impossible = {
      ...gauge,
      answer: { kind: "gauge" as const, reading: quantity(1_900, "bar"), openWhenRead: true, shutAgain: true },
    };
    expect(carryAnswers([impossible], ready, right, questions).dropped[0]?.why).toMatch(
      /is in bar; here it is read in psi/,
    );
  });

  it("only the last answer to a question is carried", () => {
    const again = { ...gauge, id: "later" };
    expect(carryAnswers([gauge, again], ready, right, questions).carried.map(({ given: { id } }) => id)).toEqual([
      "later",
    ]);
  });
});

describe("a pick list", () => {
  const task = (kind: "swap-cylinder" | "clear" | "check", subject: Subject, ...items: ItemId[]) => ({
    kind,
    subject,
    items: items.map((item) => ({ item, subject })),
  });
  const [cylinder] = workstation.fitted.cylinders;

  it("names what each task takes", () => {
    const whats = (...tasks: Parameters<typeof needsOfTask>[0][]) =>
      tasks.flatMap((one) => needsOfTask(one, workstation)).map(({ what }) => what);
    expect(whats(task("swap-cylinder", { kind: "cylinder", id: cylinder?.id ?? "" }))[0]).toMatch(
      /^Oxygen cylinder, size \w/,
    );
    expect(whats(task("clear", { kind: "absorbent", id: charge?.id ?? "" }, "absorbent-colour"))).toEqual([
      `Absorbent ${charge?.product.name}`,
    ]);
    expect(whats(task("clear", { kind: "oxygen-sensor", id: "x" }, "oxygen-in-air"))).toEqual([
      "Oxygen sensor, galvanic",
    ]);
    expect(whats(task("clear", { kind: "vaporizer", id: vaporizer?.id ?? "" }, "vaporizer-fill"))[0]).toMatch(
      /^Sevoflurane to fill/,
    );
    expect(
      whats(
        task("check", { kind: "workstation", id: workstation.id }),
        task("clear", { kind: "workstation", id: workstation.id }, "valves"),
      ),
    ).toEqual([]);
  });

  it("adds up, and says what all stores together are short of", () => {
    const oxygen = { key: "cylinder:oxygen:E", what: "Oxygen cylinder, size E" };
    const agent = { key: null, what: "Sevoflurane to fill" };
    const stock = [
      { key: "cylinder:oxygen:E", store: "A", count: 1 },
      { key: "cylinder:oxygen:E", store: "B", count: 1 },
      { key: "cylinder:air:E", store: "A", count: 9 },
    ];
    expect(pickLines([oxygen, agent, oxygen, oxygen], stock)).toEqual([
      {
        what: "Oxygen cylinder, size E",
        need: 3,
        stores: [
          { store: "A", count: 1 },
          { store: "B", count: 1 },
        ],
        short: 1,
      },
      { what: "Sevoflurane to fill", need: 1, stores: [], short: 0 },
    ]);
  });
});
