import { describe, expect, it } from "vitest";
import { dueAgain } from "@/app/_parts/fit/due-again";
import { requestOf, wordsOf } from "@/app/_parts/fit/fit-chosen";
import { optionsFor } from "@/app/_parts/fit/fit-options";
import type { FitWork } from "@/app/_parts/fit/part-work";
import { sorted } from "@/app/checks/[id]/use-open-checks.client";
import { worksAt } from "@/app/rooms/[id]/fit/works-at";
import { candidateOf, chosenWith, firstChoice, owedLines, swapWords } from "@/app/rooms/[id]/swap/swap-choice";
import type { SparePartsView, SparesView } from "@/lib/schemas/moves";
import type { RoomView } from "@/lib/schemas/room";
import type { OpenCheckView } from "@/lib/schemas/work";

const workroom = { id: "s-1", name: "Workroom" };
const cellar = { id: "s-2", name: "Cellar store" };
const owed = (itemName: string, subjectName: string): SparesView["suitable"][number]["owed"][number] => ({
  item: "pipeline-pressure",
  itemName,
  subject: { kind: "pipeline", id: subjectName },
  subjectName,
});
const spare = { model: "Marrowby 40", distance: null, why: "" };
const spares: SparesView = {
  room: { id: "r-1", name: "OR 1" },
  outgoing: { id: "w-1", tag: "AW-01" },
  swapMinutes: 25,
  stores: [cellar, workroom],
  suitable: [
    {
      ...spare,
      workstationId: "w-2",
      tag: "AW-02",
      store: workroom,
      state: "ready",
      limits: [],
      owed: [],
      minutes: 30,
      roomRemains: [],
    },
  ],
  unsuitable: [{ ...spare, workstationId: "w-3", tag: "AW-03", store: null, checked: false, acceptable: true }],
  at: "2026-11-24T12:00:00.000Z",
};

describe("what stands chosen when a swap opens", () => {
  it("is the nearest checked spare, and for the other one the place that it leaves", () => {
    expect(firstChoice(spares)).toEqual({ workstationId: "w-2", storeId: "s-1" });
  });
  it("is nothing where no spare suits: an unchecked one is never chosen by itself", () => {
    expect(firstChoice({ ...spares, suitable: [] })).toBeNull();
  });
  it("takes no store for granted when the spare comes from none and there are several", () => {
    const one = candidateOf(spares, "w-3");
    if (!one) throw new Error("no such spare");
    expect(chosenWith(one, spares.stores, null).storeId).toBeNull();
    expect(chosenWith(one, [cellar], null).storeId).toBe("s-2");
  });
  it("is said whole on the button", () => {
    expect(swapWords("AW-02", "AW-01", "s-1", spares.stores)).toBe("Swap: AW-02 in, AW-01 to Workroom");
    expect(swapWords("AW-02", null, null, spares.stores)).toBe("Bring in AW-02");
  });
});

describe("what is owed on arrival", () => {
  it("names each item once, with what it is about and no word twice", () => {
    const lines = owedLines([
      owed("Pipeline pressure", "Air pipeline"),
      owed("Final state", ""),
      owed("Pipeline pressure", "Nitrous oxide pipeline"),
    ]);
    expect(lines).toEqual(["Pipeline pressure: air, nitrous oxide", "Final state"]);
  });
});

const ON = { from: spares.at, expiry: null, retestDue: null };
const fitted: NonNullable<RoomView["fitted"]> = {
  cylinders: [{ id: "c-1", serial: "OX-1", position: "1", gas: "oxygen", size: "E", ...ON }],
  yokes: [
    { position: "1", gas: "oxygen" },
    { position: "2", gas: "oxygen" },
  ],
  vaporizers: [{ id: "v-1", tag: "VP-1", mount: "1", agent: "sevoflurane", from: spares.at, calibrationDue: null }],
  mounts: ["1", "2"],
  absorbent: [
    { id: "a-1", tag: "AB-1", position: "upper", product: "Calmora violet", from: spares.at },
    { id: "a-2", tag: "AB-2", position: "lower", product: "Calmora violet", from: spares.at },
  ],
  oxygenSensor: null,
};
const works = (id: string, position: string | null) =>
  worksAt({ id, position } as Parameters<typeof worksAt>[0], { fitted } as RoomView).map(({ title }) => title);

describe("what can be done at a place", () => {
  it("follows from what stands there", () => {
    expect(works("mount-1", "1")).toEqual([
      "Fit another vaporizer on mount 1",
      "Take VP-1 off mount 1",
      "Move VP-1 to mount 2",
    ]);
    expect(works("mount-2", "2")).toEqual(["Fit a vaporizer on mount 2"]);
    expect(works("yoke-2", "2")).toEqual(["Fit a cylinder on yoke 2"]);
    expect(works("absorbent", null)).toEqual([
      "Change the absorbent in canister upper",
      "Change the absorbent in canister lower",
    ]);
    expect(works("oxygen-sensor", null)).toEqual(["Fit an oxygen sensor"]);
    expect(works("suction", null)).toEqual([]);
  });
});

const work: FitWork = { kind: "vaporizer", position: "1", takesOff: { id: "v-1", tag: "VP-1" }, goesOn: null };
const vaporizer = { agent: "sevoflurane", filler: "keyed", calibrationDue: "2026-11-23", store: null };
const on = { tag: "AW-09", roomName: "OR 9", mount: "1", inUse: true };
const parts = {
  workstationId: "w-1",
  vaporizers: [
    { ...vaporizer, id: "v-9", tag: "VP-9", fittedTo: { ...on, workstationId: "w-9" } },
    { ...vaporizer, id: "v-2", tag: "VP-2", fittedTo: { ...on, workstationId: "w-1", mount: "2" } },
    { ...vaporizer, id: "v-1", tag: "VP-1", fittedTo: { ...on, workstationId: "w-1" } },
    { ...vaporizer, id: "v-3", tag: "VP-3", store: workroom, fittedTo: null },
  ],
} as unknown as SparePartsView;

describe("what could go on", () => {
  it("stands by nearness, without what is there already; a running case keeps its own", () => {
    const options = optionsFor(work, parts, "2026-11-24");
    expect(options.map(({ tag }) => tag)).toEqual(["VP-3", "VP-2", "VP-9"]);
    expect(options.map(({ unavailable }) => unavailable)).toEqual([null, null, "a case is running there"]);
    expect(options[0]?.what).toContain("past its calibration");
    expect(optionsFor(work, parts, "2026-11-23")[0]?.what).not.toContain("past");
  });
  it("is asked for as it was chosen; a typed tag says where it is taken from, too", () => {
    const typed = requestOf(work, { by: "tag", tag: " vp-9 " }, parts, "desflurane", "s-1");
    expect(typed).toMatchObject({
      part: { kind: "vaporizer", which: { tag: "vp-9" }, agent: "desflurane" },
      takesOff: "v-1",
      takenFrom: "w-9",
      toStoreId: "s-1",
    });
    const chosen = requestOf(work, { by: "id", id: "v-3", takenFrom: null }, parts, "desflurane", null);
    expect(chosen).not.toHaveProperty("takenFrom");
    expect(chosen.part).toEqual({ kind: "vaporizer", which: { id: "v-3" } });
  });
  it("is said on the button", () => {
    expect(wordsOf(work, { by: "tag", tag: "VP-7" }, [], null)).toBe("Changed: VP-7 on, VP-1 off");
    const absorbent = { ...work, kind: "absorbent" } as const;
    expect(wordsOf(absorbent, { by: "same" }, [], "Calmora violet")).toBe("Changed: new Calmora violet, VP-1 off");
  });
});

describe("what a change makes due again", () => {
  const asked = ["low-pressure-leak", "vaporizer-interlock"];
  it("is the recheck table's, as far as this workstation is asked it", () => {
    const items = dueAgain("vaporizer", asked);
    expect(items).toContain("Low-pressure leak test, with the vaporizer on and off");
    expect(items).not.toContain("Fresh-gas hose");
    expect(dueAgain("remove", asked)).toHaveLength(2);
    expect(dueAgain("absorbent", asked)).toEqual([]);
  });
});

describe("open checks", () => {
  const open = (checkId: string, startedAt: string) => ({ checkId, startedAt }) as OpenCheckView;
  it("tell whose this one is, and my others from the longest open", () => {
    const view = { mine: [open("b", "06:00"), open("a", "05:41")], others: [open("c", "05:50")], at: "" };
    expect(sorted(view, "b")).toMatchObject({ here: { mine: true }, elsewhere: [{ checkId: "a" }] });
    expect(sorted(view, "c").here?.mine).toBe(false);
    expect(sorted(view, "c").elsewhere.map(({ checkId }) => checkId)).toEqual(["a", "b"]);
    expect(sorted(view, "x").here).toBeNull();
  });
});
