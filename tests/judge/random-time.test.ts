import { expect, it } from "vitest";
import { judge } from "@/lib/domain/judge";
import { forEachDocument, said, saidAt } from "./each-document";

const PATIENCE = 240_000;
const DAY = 86_400_000;

it(
  "rooms by chance say the same until their good-until, and something else at it",
  () => {
    let changes = 0;
    forEachDocument(1_200, (evidence, random, seed) => {
      const judgement = judge(evidence);
      if (judgement.goodUntil === null) return;
      const now = Date.parse(evidence.now);
      const until = Date.parse(judgement.goodUntil);
      const before = said(judgement);
      changes += 1;
      expect(until, `document ${seed}`).toBeGreaterThan(now);
      for (const share of [random.next(), random.next(), random.next()]) {
        expect(saidAt(evidence, Math.floor(now + share * (until - now))), `document ${seed}`).toBe(before);
      }
      expect(saidAt(evidence, until - 1), `document ${seed}`).toBe(before);
      expect(saidAt(evidence, until), `document ${seed}`).not.toBe(before);
    });
    expect(changes).toBeGreaterThan(700);
  },
  PATIENCE,
);

it(
  "rooms by chance say the same for 400 days where they have no good-until",
  () => {
    let unchanging = 0;
    forEachDocument(2_000, (evidence, random, seed) => {
      const judgement = judge(evidence);
      if (judgement.goodUntil !== null) return;
      unchanging += 1;
      const now = Date.parse(evidence.now);
      const before = said(judgement);
      for (const days of [0.1, 0.5, 1, 2, 4, 10, 40, 400]) {
        expect(saidAt(evidence, Math.floor(now + random.next() * days * DAY)), `document ${seed}`).toBe(before);
      }
    });
    expect(unchanging).toBeGreaterThan(100);
  },
  PATIENCE,
);
