import { expect, it } from "vitest";
import { judge } from "@/lib/domain/judge";
import { explained } from "@/lib/domain/why";
import { explainedJudgement } from "@/lib/schemas/judgement";
import { forEachDocument, isSound, leaves } from "./each-document";

it("rooms by chance are told what clears each reason and which way is shortest", { timeout: 240_000 }, () => {
  let ways = 0;
  forEachDocument(150, (evidence, _random, seed) => {
    const answer = explained(evidence);
    const { whatClears, whyNot, ...judgement } = answer;
    expect(judgement, `document ${seed}`).toEqual(judge(evidence));
    for (const leaf of leaves(answer)) expect(isSound(leaf), `document ${seed}: ${String(leaf)}`).toBe(true);
    expect(explainedJudgement.safeParse(answer).error?.message, `document ${seed}`).toBeUndefined();
    for (const { reason } of whatClears) expect(judgement.reasons, `document ${seed}`).toContainEqual(reason);
    if (whyNot === null) return;
    ways += 1;
    expect(whyNot.actions.length, `document ${seed}`).toBeGreaterThan(0);
    for (const { mayDo, minutes } of whyNot.actions) {
      expect(mayDo.length, `document ${seed}`).toBeGreaterThan(0);
      expect(minutes, `document ${seed}`).toBeGreaterThanOrEqual(0);
    }
    expect(whyNot.minutes).toBe(whyNot.actions.reduce((sum, { minutes }) => sum + minutes, 0));
  });
  expect(ways).toBeGreaterThan(60);
});
