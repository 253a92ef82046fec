import { describe, expect, it } from "vitest";
import type { Placed } from "@/app/rooms/[id]/gas-path-grid";
import { layOut } from "@/app/rooms/[id]/gas-path-layout";
import { type PathNode, pathNodes } from "@/app/rooms/[id]/gas-path-nodes";
import { datesAt } from "@/app/rooms/[id]/part-dates";
import type { Evidence } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import { fittedOf } from "@/lib/queries/room-fitted";
import { partsOf } from "@/lib/queries/room-parts";
import type { RoomView } from "@/lib/schemas/room";
import { localDate } from "@/lib/units/time";
import { procedureFor, readyRoom } from "@/tests/support/ready-room";
import { aRow } from "./board-rows";

/** The room's page as the server would answer it, from evidence that is really judged. */
function viewOf(evidence: Evidence): RoomView {
  const { workstation, room, facility } = evidence;
  if (!workstation || !room) throw new Error("the ready room has both");
  return {
    facility: { ...facility, name: "Alder Ridge" },
    row: aRow({ piped: [...room.piped] }),
    judgement: structuredClone(judge(evidence)) as RoomView["judgement"],
    drive: workstation.model.drive,
    leakTest: workstation.model.leakTest,
    fitted: fittedOf(workstation),
    parts: partsOf(evidence, procedureFor(facility.scheme), new Map(), new Map()),
    endurance: null,
    clears: [],
    way: null,
    faults: [],
    openChecks: [],
    providerChanges: [],
    service: [],
    holds: [],
    checks: [],
    confirmable: null,
    tasks: [],
    at: evidence.now,
  };
}

const nodeOf = (nodes: readonly PathNode[], id: string) => {
  const node = nodes.find((one) => one.id === id);
  if (!node) throw new Error(`no place ${id} among ${nodes.map((one) => one.id).join(", ")}`);
  return node;
};

/** The ready room with another answer to one item. */
function answering(
  item: string,
  change: (observation: Evidence["observations"][number]) => Partial<Evidence["observations"][number]>,
): Evidence {
  const ready = readyRoom("US");
  return {
    ...ready,
    observations: ready.observations.map((observation) =>
      observation.item === item ? { ...observation, ...change(observation) } : observation,
    ),
  };
}

describe("places of the gas path", () => {
  it.each(["US", "ISO"] as const)("show every question of the %s check, and each once", (scheme) => {
    const view = viewOf(readyRoom(scheme));
    const shown = pathNodes(view).flatMap(({ parts }) => parts.map(({ key }) => key));
    expect(view.parts.length).toBeGreaterThan(20);
    expect([...shown].sort()).toEqual(view.parts.map(({ key }) => key).sort());
  });

  it("are all in order in a ready room", () => {
    const tones = new Set(
      pathNodes(viewOf(readyRoom("US")))
        .filter(({ parts }) => parts.length > 0)
        .map(({ tone }) => tone),
    );
    expect(tones).toEqual(new Set(["go"]));
  });

  it("stop where a reading stops the room, and only there", () => {
    const low = answering("cylinder-gauge", (observation) =>
      observation.answer.kind === "gauge"
        ? { answer: { ...observation.answer, reading: { value: 400, unit: "psi" } }, verdict: "fail" }
        : {},
    );
    const nodes = pathNodes(viewOf(low));
    const stopped = nodes.filter(({ tone }) => tone === "stop");
    expect(stopped.length).toBeGreaterThan(0);
    expect(stopped.every(({ id }) => id.startsWith("yoke-"))).toBe(true);
    expect(nodeOf(nodes, stopped[0]?.id ?? "").value.replace("\u00a0", " ")).toBe("400 psi");
  });

  it("are to check where nobody has looked", () => {
    const ready = readyRoom("US");
    const nodes = pathNodes(viewOf({ ...ready, observations: [], checks: [] }));
    expect(nodeOf(nodes, "suction")).toMatchObject({ tone: "due", value: "not answered" });
  });

  it("say so when a reading was taken with the valve shut", () => {
    const shut = answering("cylinder-gauge", (observation) =>
      observation.answer.kind === "gauge" ? { answer: { ...observation.answer, openWhenRead: false } } : {},
    );
    const yokes = pathNodes(viewOf(shut)).filter(({ id, parts }) => id.startsWith("yoke-") && parts.length > 0);
    expect(yokes.map(({ value }) => value).every((value) => value.endsWith("valve shut"))).toBe(true);
  });

  it("keep an empty yoke and an empty mount as places", () => {
    const view = viewOf(readyRoom("US"));
    const fitted = view.fitted && { ...view.fitted, cylinders: [], vaporizers: [] };
    const nodes = pathNodes({ ...view, fitted });
    const yoke = view.fitted?.yokes[0]?.position;
    expect(nodeOf(nodes, `yoke-${yoke}`)).toMatchObject({ value: "no cylinder", parts: [] });
    expect(nodes.filter(({ id, value }) => id.startsWith("mount-") && value === "empty")).toHaveLength(
      view.fitted?.mounts.length ?? 0,
    );
  });
});

describe("the drawing", () => {
  const pictures = [
    ["US", viewOf(readyRoom("US"))],
    ["ISO", viewOf(readyRoom("ISO"))],
    ["one with nothing fitted", emptied(viewOf(readyRoom("US")))],
    ["one that asks little", { ...viewOf(readyRoom("US")), parts: viewOf(readyRoom("US")).parts.slice(0, 6) }],
  ] as const;

  it.each(pictures)("of %s lets no two places overlap, and none stand outside", (_, view) => {
    const { nodes, width, height } = layOut(pathNodes(view).filter(({ zone }) => zone !== "beside"));
    expect(nodes.length).toBeGreaterThan(3);
    for (const box of nodes) {
      expect(box.x).toBeGreaterThanOrEqual(0);
      expect(box.x + box.width).toBeLessThanOrEqual(width);
      expect(box.y + box.height).toBeLessThanOrEqual(height);
    }
    const clashes = nodes.flatMap((one, index) =>
      nodes
        .slice(index + 1)
        .filter((other) => overlap(one, other))
        .map((other) => `${one.node.id} over ${other.node.id}`),
    );
    expect(clashes).toEqual([]);
  });

  it.each(pictures)("of %s gives every place and pipe a key of its own", (_, view) => {
    const { nodes, pipes } = layOut(pathNodes(view).filter(({ zone }) => zone !== "beside"));
    expect(new Set(nodes.map(({ node }) => node.id)).size).toBe(nodes.length);
    expect(new Set(pipes.map(({ key }) => key)).size).toBe(pipes.length);
  });

  it("leads each fitted gas through its own pressure reduction, and each piped gas from the wall", () => {
    const view = viewOf(readyRoom("US"));
    const { glyphs, pipes } = layOut(pathNodes(view));
    expect(glyphs.filter(({ kind }) => kind === "regulator")).toHaveLength(view.fitted?.cylinders.length ?? 0);
    expect(glyphs.filter(({ kind }) => kind === "wall")).toHaveLength(view.row.piped.length);
    for (const gas of view.row.piped) expect(pipes.some(({ carries }) => carries === gas)).toBe(true);
  });
});

function emptied(view: RoomView): RoomView {
  const parts = view.parts.filter(({ subject }) => subject.kind !== "cylinder" && subject.kind !== "vaporizer");
  return { ...view, parts, fitted: view.fitted && { ...view.fitted, cylinders: [], vaporizers: [] } };
}

const overlap = (one: Placed, other: Placed): boolean =>
  one.x < other.x + other.width &&
  other.x < one.x + one.width &&
  one.y < other.y + other.height &&
  other.y < one.y + one.height;

describe("the dates of a part", () => {
  const ready = readyRoom("US");
  const { workstation } = ready;
  if (!workstation) throw new Error("the ready room has one");
  const [cylinder, ...cylinders] = workstation.fitted.cylinders;
  const [vaporizer, ...vaporizers] = workstation.fitted.vaporizers;
  if (!cylinder || !vaporizer) throw new Error("the ready room has both");
  const dated: Evidence = {
    ...ready,
    workstation: {
      ...workstation,
      fitted: {
        ...workstation.fitted,
        cylinders: [{ ...cylinder, expiry: localDate("2029-05-31"), retestDue: null }, ...cylinders],
        vaporizers: [
          { ...vaporizer, calibration: { due: localDate("2027-03-01"), windowTo: localDate("2027-03-31") } },
          ...vaporizers,
        ],
      },
    },
  };
  const view = viewOf(dated);
  const said = (id: string) =>
    datesAt(nodeOf(pathNodes(view), id), view)
      .filter(({ value }) => value !== null)
      .map(({ term, value }) => `${term}: ${value}`);

  it("stand with the part that carries them, and one without a date is not made up", () => {
    const [onYoke, expires, ...more] = said(`yoke-${cylinder.position}`);
    expect(onYoke).toContain(`Cylinder: ${cylinder.serial} (${cylinder.size}), on since `);
    expect(expires).toBe("Label expires: 31 May 2029");
    expect(more).toEqual([]);
    expect(said(`mount-${vaporizer.mount}`)).toContain("Calibration due: 1 Mar 2027");
  });

  it("are none where nothing of its own is fitted", () => expect(said("apl")).toEqual([]));
});
