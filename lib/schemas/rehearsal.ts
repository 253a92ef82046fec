import { z } from "zod";
import { LARGEST_SEED } from "@/lib/domain/dice";
import { FAULTS } from "@/lib/domain/rehearsal/decide";
import { checkItem } from "@/lib/schemas/check";
import { answer } from "@/lib/schemas/common";

const seed = (from: typeof z.int | typeof z.coerce.number) =>
  from().int("must be a whole number").min(0, "must be 0 or more").max(LARGEST_SEED, `must be at most ${LARGEST_SEED}`);
const faults = (from: typeof z.int | typeof z.coerce.number) =>
  from()
    .int("must be a whole number")
    .min(FAULTS.least, `must be at least ${FAULTS.least}`)
    .max(FAULTS.most, `must be at most ${FAULTS.most}`);

/** Which workstation is imagined: the same two figures give the same faults, so that two people can practise on one. */
export const rehearsalQuery = z.strictObject({
  seed: seed(z.coerce.number),
  faults: faults(z.coerce.number).default(FAULTS.usual),
});
export type RehearsalQuery = z.infer<typeof rehearsalQuery>;

const sign = z.strictObject({ act: z.string(), see: z.string() });
export const rehearsalQuestion = z.strictObject({ ...checkItem.shape, signs: z.array(sign) });
export type RehearsalQuestionView = z.infer<typeof rehearsalQuestion>;

/** What is to be seen, and not what is wrong. */
export const rehearsalView = z.strictObject({
  seed: z.int(),
  faults: z.int(),
  procedure: z.strictObject({ name: z.string(), version: z.int() }),
  questions: z.array(rehearsalQuestion),
});
export type RehearsalView = z.infer<typeof rehearsalView>;

export const rehearsalAnswers = z.strictObject({
  seed: seed(z.int),
  faults: faults(z.int),
  answers: z
    .array(z.strictObject({ key: z.string().max(200), answer, seen: z.int().min(0).max(20) }))
    .max(120, "must hold at most 120 answers"),
});

const named = z.strictObject({ key: z.string(), title: z.string() });
export const rehearsalResultView = z.strictObject({
  found: z.int(),
  planted: z.int(),
  faults: z.array(
    z.strictObject({
      key: z.string(),
      title: z.string(),
      wrong: z.string(),
      harm: z.string(),
      outcome: z.enum(["found", "missed", "not-reached"]),
      because: z.string().nullable(),
    }),
  ),
  falseAlarms: z.array(z.strictObject({ ...named.shape, because: z.string() })),
  unseen: z.array(named),
  unanswered: z.array(named),
  studies: z.array(
    z.strictObject({ who: z.string(), found: z.string(), citation: z.string(), share: z.number().nullable() }),
  ),
});
export type RehearsalResultView = z.infer<typeof rehearsalResultView>;
