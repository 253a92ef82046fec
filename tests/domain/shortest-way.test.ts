import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Evidence } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import {
  answered,
  bad,
  chosen,
  gauge,
  reading,
  unanswered,
  unchecked,
  withRoom,
  withValues,
  withWorkstation,
} from "@/lib/domain/rules/examples";
import type { Action } from "@/lib/domain/way-action";
import { applied } from "@/lib/domain/way-applied";
import { blockingReasons, candidates, sceneOf, shortestWay } from "@/lib/domain/way-shortest";
import { explained } from "@/lib/domain/why";
import { explainedJudgement } from "@/lib/schemas/judgement";
import { arbitraryEvidence } from "@/tests/support/arbitrary-evidence";
import { withEvent } from "@/tests/support/evidence-changes";
import { readyRoom } from "@/tests/support/ready-room";

const ready = readyRoom();
const kindsOf = (evidence: Evidence) => shortestWay(evidence)?.actions.map(({ kind }) => kind) ?? null;
const isReady = (evidence: Evidence) => blockingReasons(sceneOf(evidence)).length === 0;

function after(evidence: Evidence, actions: readonly Action[]): Evidence {
  return actions.reduce<Evidence>((before, action) => {
    const made = applied(action, before);
    if (made === null) throw new Error(`${action.kind} cannot be applied`);
    return made;
  }, evidence);
}

/** Every room that some actions lead to, tried one after the other without any cleverness. */
function reachable(evidence: Evidence, actions: number): boolean {
  if (isReady(evidence)) return true;
  if (actions === 0) return false;
  const scene = sceneOf(evidence);
  return candidates(blockingReasons(scene), scene).some((action) => {
    const made = applied(action, evidence);
    return made !== null && reachable(made, actions - 1);
  });
}

const withNeeds = (evidence: Evidence, needs: NonNullable<NonNullable<Evidence["room"]>["list"]>["needs"]) =>
  withRoom(evidence, { list: evidence.room?.list ? { ...evidence.room.list, needs } : null });

describe("the shortest way to ready", () => {
  it.each<{ of: string; evidence: Evidence; way: string[] | null }>([
    { of: "a ready room", evidence: ready, way: [] },
    { of: "a room nobody has looked at", evidence: unchecked(ready), way: ["check"] },
    { of: "two items left open", evidence: unanswered(unanswered(ready, "apl"), "valves"), way: ["recheck"] },
    {
      of: "a low reserve",
      evidence: answered(ready, "cylinder-gauge", gauge(600), ({ id }) => id === "cylinder-o2"),
      way: ["swap-cylinder"],
    },
    {
      of: "no reserve cylinder",
      evidence: withWorkstation(ready, ({ fitted }) => ({
        fitted: { ...fitted, cylinders: fitted.cylinders.filter(({ gas }) => gas !== "oxygen") },
      })),
      way: ["fit-cylinder"],
    },
    { of: "no capnograph", evidence: answered(ready, "capnograph", bad), way: ["bring-portable"] },
    {
      of: "an oxygen sensor that fails three times",
      evidence: answered(
        answered(answered(ready, "oxygen-in-air", reading(12, "%")), "oxygen-after-flush", reading(50, "%")),
        "low-oxygen-alarm",
        bad,
      ),
      way: ["bring-portable"],
    },
    { of: "an auxiliary flowmeter that fails", evidence: answered(ready, "auxiliary-oxygen", bad), way: ["allow"] },
    {
      of: "the same, for a list of sedations",
      evidence: withNeeds(answered(ready, "auxiliary-oxygen", bad), ["sedation"]),
      way: ["put-right"],
    },
    {
      of: "a hold and a suction that fails",
      evidence: withWorkstation(answered(ready, "suction", bad), () => ({
        holds: [{ id: "h", by: "x", role: "technician", reason: "smell", since: ready.now }],
      })),
      way: ["lift-hold", "put-right"],
    },
    {
      of: "a workstation in quarantine",
      evidence: withWorkstation(ready, ({ id }) => ({
        quarantine: [{ subject: { kind: "workstation", id }, since: ready.now }],
      })),
      way: ["swap-workstation"],
    },
    {
      of: "a workstation in quarantine, in a room without suction",
      evidence: withWorkstation(answered(ready, "suction", bad), ({ id }) => ({
        quarantine: [{ subject: { kind: "workstation", id }, since: ready.now }],
      })),
      way: ["swap-workstation", "put-right"],
    },
    {
      of: "a list that needs a vapor-free workstation",
      evidence: withNeeds(ready, ["vapor-free"]),
      way: ["prepare-vapor-free"],
    },
    {
      of: "a hypoxic guard that fails, where nitrous oxide may be isolated",
      evidence: withValues(answered(ready, "hypoxic-guard", bad), "hypoxic-guard", { mayIsolate: true }),
      way: ["put-right"],
    },
    {
      of: "changed absorbent and a vaporizer that came",
      evidence: withEvent(ready, "absorbent-changed", { kind: "absorbent", id: "absorbent-1" }, "06:05"),
      way: ["recheck"],
    },
    {
      of: "an oxygen sensor in quarantine",
      evidence: withWorkstation(ready, ({ fitted }) => ({
        quarantine: [{ subject: { kind: "oxygen-sensor", id: fitted.oxygenSensor?.id ?? "" }, since: ready.now }],
      })),
      way: ["bring-portable"],
    },
    {
      of: "an absorbent in quarantine",
      evidence: withWorkstation(ready, ({ fitted }) => ({
        quarantine: [{ subject: { kind: "absorbent", id: fitted.absorbent[0]?.id ?? "" }, since: ready.now }],
      })),
      way: ["change-absorbent"],
    },
    {
      of: "spent absorbent before a first-user check, which then looks at the new one, too",
      evidence: withWorkstation(answered(ready, "absorbent-colour", chosen("all")), () => ({
        firstUserCheckOwedSince: ready.now,
      })),
      way: ["change-absorbent", "check"],
    },
    { of: "a room without a workstation", evidence: { ...ready, workstation: null, procedure: null }, way: null },
  ])("of $of", ({ evidence, way }) => {
    expect(kindsOf(evidence)).toEqual(way);
  });

  it("owes what a real spare owes when it arrives", () => {
    const empty: Evidence = { ...ready, workstation: null, procedure: null };
    const arrived = withEvent(ready, "moved-in", { kind: "workstation", id: "workstation-1" }, "06:09");
    expect(shortestWay(empty, arrived)?.actions.map(({ kind }) => kind)).toEqual(["swap-workstation", "recheck"]);
    expect(shortestWay(empty, ready)?.actions.map(({ kind }) => kind)).toEqual(["swap-workstation"]);
  });

  it("is proved: after its actions the judge says ready for the list", () => {
    fc.assert(
      fc.property(arbitraryEvidence, (evidence) => {
        const way = shortestWay(evidence);
        if (way === null) return;
        const made = after(evidence, way.actions);
        const judgement = judge(made);
        expect(["ready", "ready-limited"]).toContain(judgement.state);
        expect(judgement.readyForList).toBe(true);
        expect(way.minutes).toBe(way.actions.reduce((sum, { minutes }) => sum + minutes, 0));
      }),
      { numRuns: 30 },
    );
  }, 60_000);

  it("is the shortest: no smaller set of what could be done makes the room ready", () => {
    let tried = 0;
    fc.assert(
      fc.property(arbitraryEvidence, (evidence) => {
        const way = shortestWay(evidence);
        if (way === null || way.actions.length === 0 || way.actions.length > 3) return;
        if (way.actions.some(({ kind }) => kind === "swap-workstation")) return;
        tried += 1;
        expect(reachable(evidence, way.actions.length - 1)).toBe(false);
      }),
      { numRuns: 60 },
    );
    expect(tried).toBeGreaterThan(5);
  }, 60_000);
});

describe("what clears a reason", () => {
  it("has for every reason that stops or limits at least one action, and each has minutes and somebody who may", () => {
    fc.assert(
      fc.property(arbitraryEvidence, (evidence) => {
        const { whatClears, whyNot, ...judgement } = explained(evidence);
        expect(judgement).toEqual(judge(evidence));
        for (const { reason, anyOf } of whatClears) {
          if (["stops", "limits", "owed"].includes(reason.severity))
            expect(anyOf.length, reason.text).toBeGreaterThan(0);
          for (const { minutes, mayDo } of anyOf) {
            expect(minutes).toBeGreaterThan(0);
            expect(mayDo.length).toBeGreaterThan(0);
          }
        }
        expect(explainedJudgement.parse({ ...judgement, whatClears, whyNot })).toEqual({
          ...judgement,
          whatClears,
          whyNot,
        });
      }),
      { numRuns: 30 },
    );
  }, 60_000);

  it("is the word of two people for a late service", () => {
    const late = withWorkstation(ready, () => ({
      serviceDue: [
        {
          plan: "annual",
          due: "2026-01-01" as never,
          window: { from: "2026-01-01" as never, to: "2026-02-01" as never },
        },
      ],
    }));
    const [first] = explained(late).whatClears;
    expect(first?.anyOf.map(({ kind, together }) => `${kind} ${together}`)).toEqual(["allow true", "do-service false"]);
  });
});
