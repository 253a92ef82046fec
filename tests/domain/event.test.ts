import { describe, expect, it } from "vitest";
import { emergencyCard } from "@/lib/domain/emergency-card";
import { effectOn, eventTask, eventTitle, raisedProblem, returnAnswers, stillOwed } from "@/lib/domain/event/decide";
import { DEPARTMENT_EVENT_KINDS, type DepartmentEvent, type Raised } from "@/lib/domain/event/model";
import type { Evidence } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import { minutesLater } from "@/lib/domain/rules/examples";
import { tasksFor } from "@/lib/domain/task/decide";
import { instantOf } from "@/lib/units/time";
import { readyRoom } from "@/tests/support/ready-room";

const us = readyRoom("US");
const iso = readyRoom("ISO");
const low = (more: Partial<Raised> = {}): Raised => ({
  kind: "pipeline-low",
  zoneId: "zone",
  gas: "oxygen",
  drill: false,
  ...more,
});
const event = (more: Partial<DepartmentEvent> = {}): DepartmentEvent => ({
  id: "e",
  kind: "pipeline-low",
  zone: { id: "zone", name: "North" },
  model: null,
  gas: "oxygen",
  reading: { value: 43, unit: "psi" },
  drill: false,
  note: null,
  rooms: ["room-a1"],
  at: instantOf(us.now),
  by: "person",
  role: "technician",
  endedAt: null,
  ...more,
});

/** What the record says after the event was raised on a room. */
function raised(evidence: Evidence, what: Raised, zone: string | null = "North"): Evidence {
  const effect = effectOn(what, evidence);
  if (!effect) return evidence;
  const at = minutesLater(evidence, -1);
  const failing = effect.failing && {
    id: "told",
    ...effect.failing,
    verdict: "fail" as const,
    makersVerdict: null,
    observedAt: at,
    known: { source: "server" as const },
    by: "person",
    role: "technician" as const,
    check: null,
    recordedAt: at,
    supersedes: null,
  };
  return {
    ...evidence,
    events: [...evidence.events, { id: "event", ...effect.event, at, zone }],
    observations: failing ? [...evidence.observations, failing] : evidence.observations,
  };
}

describe("a reading says the same as the words, in both schemes", () => {
  it.each([
    ["pipeline-low", 49.9, "psi", us, true],
    ["pipeline-low", 50, "psi", us, false],
    ["pipeline-high", 55, "psi", us, false],
    ["pipeline-high", 55.1, "psi", us, true],
    ["pipeline-restored", 45, "psi", us, true],
    ["pipeline-restored", 44.9, "psi", us, false],
    ["pipeline-restored", 60.1, "psi", us, false],
    ["pipeline-low", 3.99, "bar", iso, true],
    ["pipeline-low", 4.1, "bar", iso, false],
    ["pipeline-low", 300, "kPa", us, true],
  ] as const)("%s at %d %s", (kind, value, unit, place, good) => {
    const problem = raisedProblem(low({ kind, reading: { value, unit } }), place);
    expect(problem === null).toBe(good);
    if (!good) expect(problem?.field).toBe("reading");
  });
});

describe("what an event does to a room", () => {
  it("stops it by its pressure, and asks for pressure and identity", () => {
    const evidence = raised(us, low({ reading: { value: 43, unit: "psi" } }));
    const judgement = judge(evidence);
    expect(judgement.state).toBe("do-not-use");
    expect(judgement.reasons[0]?.text).toBe("Oxygen pipeline 43 psi (at least 45 psi)");
    expect(stillOwed(event(), evidence, judgement)).toEqual(["pipeline-pressure", "pipeline-identity"]);
    expect(stillOwed(event({ gas: "air" }), evidence, judgement)).toEqual([]);
  });

  it("inside the band it stops nobody, and the looks are owed all the same", () => {
    const evidence = raised(us, low({ reading: { value: 47, unit: "psi" } }));
    expect(judge(evidence).state).toBe("to-check");
    expect(stillOwed(event(), evidence, judge(evidence))).toEqual(["pipeline-pressure", "pipeline-identity"]);
  });

  it("by report alone, without a reading, it stops", () => {
    expect(judge(raised(us, low())).state).toBe("do-not-use");
  });

  it("ends with its own looks also where nobody has checked the room today", () => {
    const unchecked: Evidence = { ...us, checks: [], observations: [] };
    const evidence = raised(unchecked, low({ reading: { value: 43, unit: "psi" } }));
    expect(stillOwed(event(), evidence, judge(evidence))).toEqual(["pipeline-pressure", "pipeline-identity"]);
    const looks = returnAnswers(
      event(),
      { roomId: "room-a1", pressure: { value: 51, unit: "psi" }, identity: true },
      evidence,
    );
    const back: Evidence = {
      ...evidence,
      checks: [
        {
          id: "return",
          procedure: null,
          kind: "recheck",
          startedAt: evidence.now,
          startedBy: "person",
          signed: [{ by: "person", role: "technician", meaning: "performed", at: evidence.now }],
        },
      ],
      observations: [
        ...evidence.observations,
        ...(looks.ok ? looks.value : []).map((look, place) => ({
          id: `return-${place}`,
          ...look,
          verdict: "pass" as const,
          makersVerdict: null,
          observedAt: evidence.now,
          known: { source: "server" as const },
          by: "person",
          role: "technician" as const,
          check: "return",
          recordedAt: evidence.now,
          supersedes: null,
        })),
      ],
    };
    expect(judge(back).state).toBe("to-check");
    expect(stillOwed(event(), back, judge(back))).toEqual([]);
  });

  it("does nothing in a drill, nor where the gas is not piped, nor for a recall", () => {
    expect(effectOn(low({ drill: true }), us)).toBeNull();
    const dry = { ...us, room: us.room && { ...us.room, piped: [] } };
    expect(effectOn(low(), dry)).toBeNull();
    expect(effectOn({ kind: "recall", modelId: "m", drill: false }, us)).toBeNull();
  });

  it("a power failure stops the workstation by its mains", () => {
    const evidence = raised(us, { kind: "power", zoneId: "zone", drill: false });
    expect(judge(evidence).state).toBe("do-not-use");
    expect(stillOwed(event({ kind: "power", gas: null }), evidence, judge(evidence))).toEqual(["mains-power"]);
  });

  it("is no task in the room while it is the zone's; the same without a zone is the room's own", () => {
    const of = (zone: string | null) => {
      const evidence = raised(us, low({ reading: { value: 43, unit: "psi" } }), zone);
      return tasksFor(judge(evidence), evidence).map(({ kind }) => kind);
    };
    expect(of("North")).toEqual([]);
    expect(of(null).sort()).toEqual(["clear", "recheck"]);
  });

  it("the same gas failing in two rooms is two pieces of work, each with a key of its own", () => {
    const keysIn = (id: string) => {
      const room = { ...us, room: us.room && { ...us.room, id } };
      const evidence = raised(room, low({ gas: "air" }), null);
      return tasksFor(judge(evidence), evidence)
        .filter(({ kind }) => kind === "clear" || kind === "allow")
        .map(({ key }) => key);
    };
    const [one, other] = [keysIn("room-1"), keysIn("room-2")];
    expect(one).toHaveLength(2);
    expect(one.filter((key) => other.includes(key))).toEqual([]);
  });

  it("a pressure that fails by itself later is the room's own work, whatever happened to the zone before", () => {
    const before = raised(us, low({ kind: "pipeline-restored" }));
    const evidence: Evidence = {
      ...before,
      observations: before.observations.map((one) =>
        one.item === "pipeline-pressure" && one.subject.id === "oxygen"
          ? { ...one, answer: { kind: "number", reading: { value: 40, unit: "psi" } }, verdict: "fail" }
          : one,
      ),
    };
    expect(tasksFor(judge(evidence), evidence).map(({ kind }) => kind)).toContain("clear");
  });
});

describe("what brings a room back", () => {
  it("is pressure and identity together, and neither alone", () => {
    const room = { roomId: "room-a1" };
    const pressure = { value: 51, unit: "psi" } as const;
    expect(returnAnswers(event(), { ...room, pressure }, us).ok).toBe(false);
    expect(returnAnswers(event(), { ...room, identity: true }, us).ok).toBe(false);
    const both = returnAnswers(event(), { ...room, pressure, identity: true }, us);
    expect(both.ok && both.value.map(({ item }) => item)).toEqual(["pipeline-pressure", "pipeline-identity"]);
    expect(returnAnswers(event({ kind: "power" }), { ...room, pressure, identity: true }, us).ok).toBe(false);
    expect(returnAnswers(event({ kind: "power" }), { ...room, mains: false }, us).ok).toBe(true);
  });
});

describe("how it is told", () => {
  it("names gas, reading and place, and a drill first of all", () => {
    expect(eventTitle(event())).toBe("Oxygen pipeline low, 43 psi: North");
    expect(eventTitle(event({ drill: true, reading: null }))).toBe("Drill: oxygen pipeline low: North");
    expect(eventTitle(event({ kind: "power", gas: null, reading: null }))).toBe("Power failed: North");
  });

  it("is one task, longer for more rooms", () => {
    expect(eventTask(event(), 3).minutes).toBe(3 * eventTask(event(), 1).minutes);
    expect(eventTask(event(), 1).why).toBe("1 room to return to service: pressure and gas identity in each");
    expect(eventTask(event({ drill: true }), 3).severity).toBe("due");
  });

  it("has a card for every kind; for oxygen the reserve comes first, then the hose, by hand, low flow", () => {
    for (const kind of DEPARTMENT_EVENT_KINDS) expect(emergencyCard(kind, null).steps.length).toBeGreaterThan(2);
    const steps = emergencyCard("pipeline-low", "oxygen").steps.map(({ act }) => act);
    expect(steps[0]).toMatch(/reserve oxygen cylinder/);
    expect(steps[1]).toMatch(/hose off the wall/);
    expect(steps[2]).toMatch(/by hand/);
    expect(steps[3]).toMatch(/Low fresh-gas flow/);
    expect(emergencyCard("pipeline-low", "air").title).toBe("Medical air lost");
  });
});
