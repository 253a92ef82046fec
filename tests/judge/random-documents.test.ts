import { expect, it } from "vitest";
import { judge } from "@/lib/domain/judge";
import { type Judgement, READINESS, type Readiness, type Severity } from "@/lib/domain/judgement";
import { readEvidence } from "@/lib/exchange/judge/read-document";
import { judgement as judgementSchema } from "@/lib/schemas/judgement";
import { forEachDocument, isSound, leaves } from "./each-document";

const DOCUMENTS = 10_000;
const PATIENCE = 240_000;

/** Of which severity a reason must be to bring about a state. */
const SAID_BY: Readonly<Record<Readiness, readonly Severity[]>> = {
  "out-of-service": ["out"],
  "do-not-use": ["stops"],
  "to-check": ["owed"],
  "ready-limited": ["limits"],
  ready: [],
};

function problemOf(judgement: Judgement): string | null {
  for (const leaf of leaves(judgement)) if (!isSound(leaf)) return `holds ${JSON.stringify(leaf) ?? "undefined"}`;
  const { state, reasons } = judgement;
  return state === "ready" || reasons.some(({ severity }) => SAID_BY[state].includes(severity))
    ? null
    : `${state} without a reason of its own`;
}

it(
  `${DOCUMENTS} rooms by chance are judged in finite numbers and in words, and none without saying why`,
  () => {
    const found = new Map<string, number>();
    forEachDocument(DOCUMENTS, (evidence, _random, seed) => {
      const judgement = judge(evidence);
      const problem = problemOf(judgement);
      if (problem !== null) expect.fail(`document ${seed}: ${problem}`);
      found.set(judgement.state, (found.get(judgement.state) ?? 0) + 1);
    });
    // Each state often enough to have been tried.
    for (const state of READINESS) expect(found.get(state), state).toBeGreaterThan(DOCUMENTS / 50);
  },
  PATIENCE,
);

it(
  "rooms by chance pass the border unchanged, and their answers have the shape that is promised",
  () => {
    forEachDocument(1_000, (evidence, _random, seed) => {
      const read = readEvidence(JSON.parse(JSON.stringify(evidence)));
      if (!read.ok) expect.fail(`document ${seed}: ${JSON.stringify(read.problems)}`);
      expect(read.evidence, `document ${seed}`).toEqual(evidence);
      const shaped = judgementSchema.safeParse(judge(read.evidence));
      if (!shaped.success) expect.fail(`document ${seed}: ${shaped.error.message}`);
    });
  },
  PATIENCE,
);
