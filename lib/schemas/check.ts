import { z } from "zod";
import { ANSWERED_BY } from "@/lib/domain/procedure/model";
import { CHECK_KINDS, MEANINGS } from "@/lib/domain/vocabulary";
import { answer, id, isStorable, itemId, quantity, role, subject, timestamp } from "@/lib/schemas/common";
import { keptOnDevice } from "@/lib/schemas/offline";
import { UNITS } from "@/lib/units/quantity";

const unit = z.enum(UNITS);

/** How one item is answered on this workstation, with the site's unit filled in. */
export const answerForm = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("pass"), yes: z.string(), no: z.string() }),
  z.strictObject({ kind: z.literal("number"), unit, least: z.number(), most: z.number(), decimals: z.int() }),
  z.strictObject({ kind: z.literal("gauge"), unit, most: z.number() }),
  z.strictObject({
    kind: z.literal("choice"),
    options: z.array(z.strictObject({ value: z.string(), label: z.string() })),
  }),
  z.strictObject({ kind: z.literal("timed"), seconds: z.number(), what: z.string() }),
]);

/** One question of a check: an item of the procedure about one subject. */
export const checkItem = z.strictObject({
  key: z.string(),
  item: itemId,
  subject,
  subjectName: z.string(),
  title: z.string(),
  how: z.string(),
  why: z.string(),
  whenItFails: z.string(),
  form: answerForm,
  /** The limits it will be judged by, for showing beside the answer. */
  limits: z.strictObject({ atLeast: quantity.nullable(), atMost: quantity.nullable(), text: z.string() }).nullable(),
  by: z.enum(ANSWERED_BY),
  /** What its readings usually are, for asking "sure?" about one far off; null while there is no history. */
  usual: z
    .strictObject({ unit, count: z.int(), median: z.number(), spread: z.number(), least: z.number() })
    .nullable()
    .optional(),
});
export type CheckItemView = z.infer<typeof checkItem>;

export const recordedAnswer = z.strictObject({
  observationId: id,
  key: z.string(),
  item: itemId,
  subject,
  answer,
  verdict: z.enum(["pass", "fail", "noted"]),
  by: z.string(),
  at: timestamp,
  /** The answer before this one, of an earlier check: shown after entry, never beside an empty field. */
  previous: z.strictObject({ answer, at: timestamp }).nullable(),
  /** What a gauge reading is worth: "640 L (612 to 668) · 70 min by hand". */
  worth: z.string().nullable(),
  /** What became of the contents since the answer before: a leak, a cold night, another cylinder. */
  since: z.string().nullable(),
});

export const signatureView = z.strictObject({ name: z.string(), role, meaning: z.enum(MEANINGS), at: timestamp });

export const checkView = z.strictObject({
  id,
  kind: z.enum(CHECK_KINDS),
  procedure: z
    .strictObject({ id: id.nullable().optional(), name: z.string(), version: z.int(), citation: z.string() })
    .nullable(),
  workstation: z.strictObject({ id, tag: z.string(), model: z.string() }),
  room: z.strictObject({ id, name: z.string() }).nullable(),
  startedAt: timestamp,
  startedBy: z.string(),
  items: z.array(checkItem),
  recorded: z.array(recordedAnswer),
  /** Typed but not yet recorded, by this person: item key -> what was typed. */
  draft: z.record(z.string(), z.unknown()),
  signatures: z.array(signatureView),
  /** Without what the same user need not repeat on successive cases. */
  shortened: z.boolean().optional(),
  /** Grows with every recorded answer and signature; a signature says which version was seen. */
  version: z.int(),
  at: timestamp,
});
export type CheckView = z.infer<typeof checkView>;

export const startCheckRequest = z.strictObject({
  workstationId: id,
  kind: z.enum(["daily", "first-user", "each-case", "provider-change", "close-out"]),
  /** Everything, also what the same user could leave out on a successive case. */
  whole: z.boolean().optional(),
});
export const startCheckReply = z.strictObject({ checkId: id, resumed: z.boolean() });

export const answerGiven = z.strictObject({ item: itemId, subject, answer });
export const recordAnswersRequest = z.strictObject({
  checkId: id,
  answers: z
    .array(answerGiven.extend({ /** By the device's clock. */ givenAt: timestamp.optional() }))
    .min(1, "must hold at least one answer")
    .max(80),
  /** From a device that keeps answers until they are sent. Without it (the shape before), they were given just now by who sends them. */
  kept: keptOnDevice.optional(),
});
export const recordAnswersReply = z.strictObject({
  checkId: id,
  recorded: z.array(z.strictObject({ key: z.string(), verdict: z.enum(["pass", "fail", "noted"]) })),
  version: z.int(),
  /** Kept as evidence, but what they were about has changed since: they settle nothing of what is asked now. */
  unsettled: z.array(z.strictObject({ key: z.string(), why: z.string() })),
});

export const saveDraftRequest = z.strictObject({
  checkId: id,
  answers: z
    .record(z.string().max(200), z.unknown())
    .refine(
      (answers) => isPlainEnough(answers, DEEPEST_DRAFT),
      "must not hold a character of code 0, half of a character, or answers nested deeper than 8",
    ),
});

const DEEPEST_DRAFT = 8;

function isPlainEnough(value: unknown, levels: number): boolean {
  if (typeof value === "string") return isStorable(value);
  if (value === null || typeof value !== "object") return true;
  return (
    levels > 0 && Object.entries(value).every(([key, inner]) => isStorable(key) && isPlainEnough(inner, levels - 1))
  );
}

export const saveDraftReply = z.strictObject({ checkId: id, savedAt: timestamp });

export const signCheckRequest = z.strictObject({
  checkId: id,
  /** What the person saw; refused if the check has moved on since. */
  seenVersion: z.int().nonnegative(),
});
export const signCheckReply = z.strictObject({
  checkId: id,
  signedAt: timestamp,
  failing: z.int(),
  unanswered: z.int(),
});

export const confirmCheckRequest = z.strictObject({ checkId: id, seenVersion: z.int().nonnegative() });
export const confirmCheckReply = z.strictObject({ checkId: id, confirmedAt: timestamp });
