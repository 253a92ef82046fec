import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Answer } from "@/lib/domain/answer";
import type { Evidence } from "@/lib/domain/evidence";
import { ITEM_IDS, type ItemId, sameSubject } from "@/lib/domain/items";
import { judge } from "@/lib/domain/judge";
import { contextAt } from "@/lib/domain/judge-context";
import { indexOf } from "@/lib/domain/judge-index";
import { type Judgement, READINESS, SEVERITIES } from "@/lib/domain/judgement";
import { answered, bad, chosen, gauge, reading, unchecked } from "@/lib/domain/rules/examples";
import { instantOf } from "@/lib/units/time";
import { arbitraryEvidence } from "@/tests/support/arbitrary-evidence";
import { moment, withAnswer } from "@/tests/support/evidence-changes";
import { readyRoom } from "@/tests/support/ready-room";

const at = (evidence: Evidence, milliseconds: number): Judgement =>
  judge({ ...evidence, now: new Date(milliseconds).toISOString() });

/** What a judgement says, its own end aside. */
const said = ({ goodUntil: _until, decideBy: _by, ...rest }: Judgement): unknown => rest;

const QUARTER = 900_000;
/** An answer that fails by the shipped limits, of the kind the item is asked in. */
function failingAnswer(item: ItemId): Answer {
  if (item === "cylinder-gauge") return gauge(300);
  if (item === "vaporizer-fill") return chosen("empty");
  if (item === "absorbent-colour") return chosen("all");
  if (item === "pipeline-pressure") return reading(20, "psi");
  if (item === "oxygen-in-air" || item === "oxygen-after-flush") return reading(12, "%");
  return bad;
}

/** Enough to have found every slip that was planted, and short enough for a busy machine. */
const RUNS = { numRuns: 100 };
const PATIENCE = 60_000;

describe("good until", () => {
  it(
    "is the moment from which the clock alone says something else, and nothing changes before it",
    () => {
      fc.assert(
        fc.property(
          arbitraryEvidence,
          fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 6 }),
          (evidence, between) => {
            const judgement = judge(evidence);
            const now = Date.parse(evidence.now);
            const horizon = judgement.goodUntil === null ? now + 30 * 86_400_000 : Date.parse(judgement.goodUntil);
            for (const share of between) {
              const moment = Math.floor(now + share * (horizon - 1 - now));
              expect(said(at(evidence, moment))).toEqual(said(judgement));
            }
            if (judgement.goodUntil !== null) {
              expect(said(at(evidence, horizon - 1))).toEqual(said(judgement));
              expect(said(at(evidence, horizon))).not.toEqual(said(judgement));
            }
          },
        ),
        RUNS,
      );
    },
    PATIENCE,
  );

  it(
    "is found also by going through the next days quarter of an hour by quarter",
    () => {
      fc.assert(
        fc.property(arbitraryEvidence, (evidence) => {
          const judgement = judge(evidence);
          const now = Date.parse(evidence.now);
          const before = JSON.stringify(said(judgement));
          let change: number | null = null;
          for (let quarters = 1; quarters <= 4 * 60 && change === null; quarters += 1) {
            const moment = now + quarters * QUARTER;
            if (JSON.stringify(said(at(evidence, moment))) !== before) change = moment;
          }
          const until = judgement.goodUntil === null ? null : Date.parse(judgement.goodUntil);
          if (change === null) expect(until === null || until > now + 60 * 3_600_000).toBe(true);
          else expect(until).not.toBeNull();
          if (change !== null && until !== null) {
            expect(until).toBeLessThanOrEqual(change);
            expect(until).toBeGreaterThan(change - QUARTER);
          }
        }),
        { numRuns: 15 },
      );
    },
    PATIENCE,
  );

  it(
    "is null for a room that the clock cannot change",
    () => {
      const nobody = { ...unchecked(readyRoom()), workstation: null };
      expect(judge(nobody)).toMatchObject({ state: "out-of-service", goodUntil: null });
    },
    PATIENCE,
  );

  it(
    "is 05:00 of the next day for a ready room with both marks",
    () => {
      expect(judge(readyRoom()).goodUntil).toBe(moment("+1 05:00"));
    },
    PATIENCE,
  );
});

describe("the judge", () => {
  it(
    "says the same in whatever order the evidence is listed",
    () => {
      const shuffled = <One>(list: readonly One[]) =>
        fc.shuffledSubarray([...list], { minLength: list.length, maxLength: list.length });
      const both = arbitraryEvidence.chain((evidence) =>
        fc.record({
          evidence: fc.constant(evidence),
          observations: shuffled(evidence.observations),
          checks: shuffled(evidence.checks),
          events: shuffled(evidence.events),
        }),
      );
      fc.assert(
        fc.property(both, ({ evidence, observations, checks, events }) => {
          const other = judge({ ...evidence, observations, checks, events });
          const sorted = (judgement: Judgement) => ({
            ...judgement,
            owed: [...judgement.owed].sort((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1)),
          });
          expect(sorted(other)).toEqual(sorted(judge(evidence)));
        }),
        RUNS,
      );
    },
    PATIENCE,
  );

  it(
    "looks at nothing but the evidence: the same document twice is the same judgement, and the document is left alone",
    () => {
      fc.assert(
        fc.property(arbitraryEvidence, (evidence) => {
          const before = JSON.stringify(evidence);
          expect(judge(evidence)).toEqual(judge(JSON.parse(before) as Evidence));
          expect(JSON.stringify(evidence)).toBe(before);
        }),
        RUNS,
      );
    },
    PATIENCE,
  );

  it(
    "never calls a room readier because something failed in it",
    () => {
      const rank = (judgement: Judgement) =>
        READINESS.indexOf(judgement.state) - (judgement.state === "to-check" ? 1.5 : 0);
      fc.assert(
        fc.property(
          arbitraryEvidence,
          fc.constantFrom("self-inflating-bag", "valves", "final-state", "circuit"),
          (evidence, item) => {
            const failed = withAnswer(evidence, { id: "worse", item, answer: bad, at: "06:09", check: null });
            expect(rank(judge(failed))).toBeGreaterThanOrEqual(
              Math.min(rank(judge(evidence)), READINESS.indexOf("do-not-use")),
            );
            expect(["do-not-use", "out-of-service"]).toContain(judge(failed).state);
          },
        ),
        RUNS,
      );
    },
    PATIENCE,
  );

  it(
    "never lets a failing answer stand without a word: some reason names its item or its subject",
    () => {
      const everything = fc
        .record({
          evidence: arbitraryEvidence,
          items: fc.uniqueArray(fc.constantFrom(...ITEM_IDS), { minLength: 1, maxLength: 6 }),
        })
        .map(({ evidence, items }) =>
          items.reduce((worse, item) => answered(worse, item, failingAnswer(item)), evidence),
        );
      fc.assert(
        fc.property(everything, (evidence) => {
          const { reasons } = judge(evidence);
          for (const { item, subject } of contextAt(indexOf(evidence), instantOf(evidence.now)).failing()) {
            const told = reasons.some((reason) => reason.items.includes(item) || sameSubject(reason.subject, subject));
            expect(told, `${item} about ${subject.id}`).toBe(true);
          }
        }),
        RUNS,
      );
    },
    PATIENCE,
  );

  it(
    "is never ready with something owed, failed or held, nor with a limit while it says it has none",
    () => {
      fc.assert(
        fc.property(arbitraryEvidence, (evidence) => {
          const { state, reasons, owed, limits, readyForList } = judge(evidence);
          const worst = SEVERITIES.find((severity) => reasons.some((reason) => reason.severity === severity)) ?? "note";
          if (state === "ready") expect(["due", "note"]).toContain(worst);
          if (state === "ready" || state === "ready-limited") expect(owed).toEqual([]);
          if (state !== "ready" && state !== "ready-limited") expect(readyForList).toBe(false);
          if (state === "ready") expect(limits).toEqual([]);
          expect(reasons.map(({ severity }) => SEVERITIES.indexOf(severity))).toEqual(
            [...reasons].map(({ severity }) => SEVERITIES.indexOf(severity)).sort((a, b) => a - b),
          );
        }),
        RUNS,
      );
    },
    PATIENCE,
  );
});
