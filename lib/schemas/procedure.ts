import { z } from "zod";
import { ANSWERED_BY, OWN_FAILING } from "@/lib/domain/procedure/model";
import { LEAK_TESTS, SCHEMES } from "@/lib/domain/vocabulary";
import { date, gas, id, itemId, timestamp, words } from "@/lib/schemas/common";
import { UNITS } from "@/lib/units/quantity";

/** Kinds of check that have a procedure of their own. */
export const PROCEDURE_KINDS = ["daily", "each-case", "provider-change", "close-out"] as const;
const kind = z.enum(PROCEDURE_KINDS);
const unit = z.union([z.enum(UNITS), z.literal("site-pressure")]);

const answer = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("pass"), yes: words(40), no: words(40) }),
  z
    .strictObject({
      kind: z.literal("number"),
      unit,
      least: z.number(),
      most: z.number(),
      decimals: z.int().min(0).max(3),
    })
    .refine(({ least, most }) => least < most, { path: ["most"], message: "must be over the lowest reading" }),
  z.strictObject({ kind: z.literal("gauge"), unit: z.literal("site-pressure") }),
  z.strictObject({
    kind: z.literal("choice"),
    options: z
      .array(z.strictObject({ value: words(40), label: words(60) }))
      .min(2)
      .max(12),
  }),
  z.strictObject({ kind: z.literal("timed"), seconds: z.number().min(1).max(600), what: words(60) }),
]);

const applies = z.strictObject({
  leakTest: z.array(z.enum(LEAK_TESTS)).min(1).optional(),
  gas: gas.optional(),
  nitrousOxideAtHand: z.boolean().optional(),
  outletSelector: z.boolean().optional(),
  wasteGasActive: z.boolean().optional(),
  vacuum: z.boolean().optional(),
  vaporizerFitted: z.boolean().optional(),
  indicatorAbsorbent: z.boolean().optional(),
  scheme: z.enum(SCHEMES).optional(),
  selfTest: z.boolean().optional(),
  unlessSelfTestCovers: z.boolean().optional(),
});

export const procedureItem = z.strictObject({
  item: itemId,
  title: words(60),
  how: words(400),
  why: words(300),
  whenItFails: words(300),
  answer,
  by: z.enum(ANSWERED_BY),
  applies,
  sameUserMaySkip: z.boolean().optional(),
  failing: z.enum(OWN_FAILING).optional(),
  limits: z.strictObject({ atLeast: z.number().optional(), atMost: z.number().optional() }).optional(),
});

const text = z.strictObject({ name: words(60), citation: words(300), items: z.array(procedureItem).max(80) });
const revision = z.int().nonnegative();

/** Begins the next version of a kind: from the newest one, or from a ready-made one. */
export const draftProcedureRequest = z.strictObject({ kind, from: z.string().max(60).nullable() });
export const draftProcedureReply = z.strictObject({ draftId: id, revision });
export const saveProcedureRequest = z.strictObject({ draftId: id, revision, text });
export const saveProcedureReply = z.strictObject({ draftId: id, revision });
export const proposeProcedureRequest = z.strictObject({ draftId: id, revision, inForceOn: date, reason: words(500) });
export const proposeProcedureReply = z.strictObject({ draftId: id, inForceOn: date });
export const approveProcedureRequest = z.strictObject({ draftId: id, revision });
export const approveProcedureReply = z.strictObject({
  draftId: id,
  procedureId: id,
  version: z.int(),
  inForceFrom: timestamp,
});
export const declineProcedureRequest = z.strictObject({ draftId: id, reason: words(500) });
export const declineProcedureReply = z.strictObject({ draftId: id, outcome: z.enum(["declined", "taken-back"]) });
export const dropProcedureRequest = z.strictObject({ draftId: id, revision });
export const dropProcedureReply = z.strictObject({ draftId: id });

const shownItem = z.strictObject({ item: itemId, name: z.string(), title: z.string(), by: z.enum(ANSWERED_BY) });
const versionView = z.strictObject({
  id,
  name: z.string(),
  version: z.int(),
  citation: z.string(),
  inForceFrom: timestamp,
  items: z.array(shownItem),
});

export const draftView = z.strictObject({
  id,
  revision,
  state: z.enum(["draft", "proposed"]),
  text,
  savedBy: z.string(),
  savedAt: timestamp,
  inForceOn: date.nullable(),
  reason: z.string().nullable(),
  proposedBy: z.string().nullable(),
  declinedBecause: z.string().nullable(),
  /** Whoever reads this wrote in it, and so cannot approve it. */
  own: z.boolean(),
  added: z.array(z.string()),
  removed: z.array(z.string()),
  reworded: z.array(z.string()),
  /** The items that both have stand in another order. */
  reordered: z.boolean(),
  /** The name or the source. */
  renamed: z.boolean(),
  /** Said before it is proposed: what no check of this kind will ask any more although a rule judges it. */
  warnings: z.array(z.string()),
});
export type DraftView = z.infer<typeof draftView>;

export const proceduresView = z.strictObject({
  today: date,
  kinds: z.array(
    z.strictObject({
      kind,
      inForce: versionView.nullable(),
      waiting: versionView.nullable(),
      draft: draftView.nullable(),
      readyMade: z.array(z.strictObject({ id: z.string(), name: z.string(), citation: z.string(), items: z.int() })),
    }),
  ),
  at: timestamp,
});
export type ProceduresView = z.infer<typeof proceduresView>;
