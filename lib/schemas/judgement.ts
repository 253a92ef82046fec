import { z } from "zod";
import { READINESS, SEVERITIES } from "@/lib/domain/judgement";
import { LIMITS } from "@/lib/domain/vocabulary";
import { ACTION_KINDS } from "@/lib/domain/way-action";
import { itemId, quantity, role, subject, timestamp } from "@/lib/schemas/common";

/** The judge's answer as the API returns it. */
export const finding = z.strictObject({
  rule: z.string(),
  severity: z.enum(SEVERITIES),
  subject,
  text: z.string(),
  measured: z.union([quantity, z.string()]).nullable(),
  limit: z.union([quantity, z.string()]).nullable(),
  citation: z.string(),
  settingsVersion: z.int(),
  items: z.array(itemId),
  takesAway: z.array(z.enum(LIMITS)),
  supplyFailure: z.boolean(),
  allowedUntil: timestamp.nullable(),
});

export const owed = z.strictObject({
  item: itemId,
  subject,
  because: z.enum(["not-checked", "expired", "incomplete", "recheck", "read-shut", "first-user"]),
  event: z.string().nullable(),
});

/** `by` is a person's id in evidence; screens get the name beside it. */
export const mark = z.strictObject({ by: z.string(), role, at: timestamp });

export const judgement = z.strictObject({
  state: z.enum(READINESS),
  marks: z.strictObject({ equipment: mark.nullable(), provider: mark.nullable() }),
  reasons: z.array(finding),
  limits: z.array(z.enum(LIMITS)),
  owed: z.array(owed),
  readyForList: z.boolean(),
  whenInUse: z.enum(["after-this-case", "act-now"]).nullable(),
  decideBy: timestamp.nullable(),
  goodUntil: timestamp.nullable(),
});

/** One thing that somebody does about a reason. */
export const action = z.strictObject({
  kind: z.enum(ACTION_KINDS),
  text: z.string(),
  minutes: z.number(),
  mayDo: z.array(role),
  together: z.boolean(),
  items: z.array(z.strictObject({ item: itemId, subject })),
  subject: subject.nullable(),
  about: z.string().nullable(),
});

/** The judgement with what clears each reason, and the shortest way to ready for the list. */
export const explainedJudgement = judgement.extend({
  whatClears: z.array(z.strictObject({ reason: finding, anyOf: z.array(action) })),
  whyNot: z.strictObject({ actions: z.array(action), minutes: z.number() }).nullable(),
});
