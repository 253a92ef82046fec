import { describe, expect, it } from "vitest";
import type { Evidence } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import { asIfIn, byItself, chooseSpares, mayBeSwappedIn, type Spare } from "@/lib/domain/spare-choice";
import { decideSwapWorkstation } from "@/lib/domain/workstation/decide";
import { procedureFor, readyRoom, readyTime } from "@/tests/support/ready-room";

const procedure = procedureFor("US");
const at = (evidence: Evidence, time: string): Evidence => ({ ...evidence, now: readyTime("US", time) });

/** The ready room's own workstation as a spare in a store, under another name. */
function spareEvidence(id = "spare-1", change: (evidence: Evidence) => Evidence = (evidence) => evidence): Evidence {
  const renamed = JSON.parse(JSON.stringify(readyRoom("US")).replaceAll("workstation-1", id)) as Evidence;
  const workstation = renamed.workstation && { ...renamed.workstation, id, tag: id.toUpperCase() };
  const own = { kind: "workstation", id } as const;
  return change({
    ...renamed,
    room: null,
    workstation,
    observations: renamed.observations
      .filter(({ subject }) => subject.kind !== "room" && subject.kind !== "pipeline")
      .map((observation) =>
        observation.subject.kind === "workstation" ? { ...observation, subject: own } : observation,
      ),
    procedure: renamed.procedure && {
      ...renamed.procedure,
      owes: renamed.procedure.owes
        .filter(({ subject }) => subject.kind !== "room" && subject.kind !== "pipeline")
        .map((owed) => (owed.subject.kind === "workstation" ? { ...owed, subject: own } : owed)),
    },
  });
}

const spare = (evidence: Evidence, distance: number | null, store = "Workroom"): Spare => ({
  workstationId: evidence.workstation?.id ?? "",
  tag: evidence.workstation?.tag ?? "",
  model: evidence.workstation?.model.name ?? "",
  store: { id: store, name: store },
  distance,
  evidence,
});

const held = (evidence: Evidence): Evidence => ({
  ...evidence,
  workstation: evidence.workstation && {
    ...evidence.workstation,
    holds: [{ id: "hold", by: "somebody", role: "technician", reason: "smells", since: evidence.now }],
  },
});
const unchecked = (evidence: Evidence): Evidence => ({ ...evidence, checks: [], observations: [] });

describe("a spare judged as if it stood in the room", () => {
  const room = at(readyRoom("US"), "06:20");
  const there = judge(asIfIn(room, at(spareEvidence(), "06:20"), procedure));

  it("owes what a move makes due, and nothing that the room or the spare has shown already", () => {
    expect(there.state).toBe("to-check");
    expect([...new Set(there.owed.map(({ because }) => because))]).toEqual(["recheck"]);
    const items = there.owed.map(({ item }) => item);
    expect(items).toContain("pipeline-pressure");
    expect(items).toContain("final-state");
    for (const item of ["suction", "self-inflating-bag", "cylinder-gauge", "low-pressure-leak"])
      expect(items).not.toContain(item);
  });

  it("keeps its own mark and takes none from the workstation that goes out", () => {
    expect(there.marks.equipment).not.toBeNull();
    const named = {
      ...room,
      checks: room.checks.map((check) => ({ ...check, workstation: room.workstation?.id ?? null })),
    };
    expect(judge(asIfIn(named, at(unchecked(spareEvidence()), "06:20"), procedure)).marks.equipment).toBeNull();
  });

  it("by itself it is judged without the room's own", () => {
    expect(byItself(spareEvidence()).state).toBe("ready");
    const noSuction = {
      ...readyRoom("US"),
      observations: readyRoom("US").observations.filter(({ item }) => item !== "suction"),
    };
    expect(judge(noSuction).state).toBe("to-check");
    expect(byItself(noSuction).state).toBe("ready");
  });
});

describe("the choice among spares", () => {
  const room = at(readyRoom("US"), "06:20");
  const now = (evidence: Evidence) => at(evidence, "06:20");

  it("nearest first, those of unknown place last, and none that may not be used", () => {
    const { suitable, unsuitable } = chooseSpares(
      room,
      [
        spare(now(spareEvidence("c")), null),
        spare(now(spareEvidence("b")), 4),
        spare(now(spareEvidence("a")), 4),
        spare(now(spareEvidence("d")), 1),
        spare(now(held(spareEvidence("e"))), 0),
        spare(now(unchecked(spareEvidence("f"))), 0),
      ],
      procedure,
    );
    expect(suitable.map(({ spare: { tag } }) => tag)).toEqual(["D", "A", "B", "C"]);
    expect(unsuitable.map(({ spare: { tag }, acceptable, checked }) => [tag, acceptable, checked])).toEqual([
      ["E", false, false],
      ["F", true, false],
    ]);
    expect(unsuitable[0]?.why).toContain("smells");
    expect(suitable[0]?.why).toMatch(/^Checked, fits the list, 1 room away, owes \d+ items on arrival$/);
  });

  it("one that lacks what the list needs is not for this list", () => {
    const empty = spareEvidence("g", (evidence) => ({
      ...evidence,
      workstation: evidence.workstation && {
        ...evidence.workstation,
        fitted: { ...evidence.workstation.fitted, vaporizers: [] },
      },
    }));
    const { suitable, unsuitable } = chooseSpares(room, [spare(now(empty), 0)], procedure);
    expect(suitable).toEqual([]);
    expect(unsuitable[0]?.why).toMatch(/Not for this list: it would lack volatile/);
  });

  it("what the room itself lacks is told beside the spare", () => {
    const broken: Evidence = {
      ...room,
      observations: room.observations.map((observation) =>
        observation.item === "self-inflating-bag"
          ? { ...observation, answer: { kind: "pass", passed: false }, verdict: "fail" }
          : observation,
      ),
    };
    const { suitable } = chooseSpares(broken, [spare(now(spareEvidence()), 0)], procedure);
    expect(suitable[0]?.roomRemains.join()).toMatch(/inflating bag/i);
  });
});

describe("a swap is decided", () => {
  const room = readyRoom("US");
  const asked = {
    outgoing: room.workstation?.id ?? "",
    incoming: "spare-1",
    outgoingTo: { store: "workroom" },
    storeKnown: true,
    acceptUnchecked: false,
  };

  it("for a checked spare, and for an unchecked one only when that is said", () => {
    expect(decideSwapWorkstation(room, spareEvidence(), asked)).toEqual({
      ok: true,
      value: { exchangedWith: null, toStore: "workroom" },
    });
    expect(mayBeSwappedIn(unchecked(spareEvidence()))).toEqual({ ok: true, checked: false });
    expect(decideSwapWorkstation(room, unchecked(spareEvidence()), asked)).toMatchObject({
      ok: false,
      refusal: "does-not-fit",
      field: "acceptUnchecked",
    });
    expect(decideSwapWorkstation(room, unchecked(spareEvidence()), { ...asked, acceptUnchecked: true }).ok).toBe(true);
    expect(
      decideSwapWorkstation(room, held(unchecked(spareEvidence())), { ...asked, acceptUnchecked: true }),
    ).toMatchObject({ refusal: "does-not-fit" });
  });

  it("not under a running case, here or there", () => {
    const running = (evidence: Evidence): Evidence => ({
      ...evidence,
      room: room.room && {
        ...room.room,
        name: "OR 9",
        occupancy: { state: "in-use", since: room.now, confirmed: true },
      },
    });
    expect(decideSwapWorkstation(running(room), spareEvidence(), asked)).toMatchObject({
      refusal: "not-allowed",
      field: "roomId",
    });
    expect(decideSwapWorkstation(room, running(spareEvidence()), { ...asked, outgoingTo: "exchange" })).toMatchObject({
      refusal: "not-allowed",
      field: "incomingWorkstationId",
    });
  });

  it("into an empty room nothing goes out", () => {
    const empty = { ...room, workstation: null };
    expect(decideSwapWorkstation(empty, spareEvidence(), { ...asked, outgoing: null, outgoingTo: null }).ok).toBe(true);
    expect(decideSwapWorkstation(empty, spareEvidence(), { ...asked, outgoing: null })).toMatchObject({
      refusal: "invalid",
      field: "outgoingTo",
    });
    expect(decideSwapWorkstation(empty, spareEvidence(), asked)).toMatchObject({ refusal: "moved-on" });
  });
});
