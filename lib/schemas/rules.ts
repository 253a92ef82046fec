import { z } from "zod";
import { date, id, quantity, role, ruleId, timestamp, words } from "@/lib/schemas/common";

const value = z.union([quantity, z.number(), z.boolean(), words(60)]);
const values = z.record(z.string().min(1).max(60), value);

export const proposeRulesRequest = z.strictObject({
  rule: ruleId,
  /** Back to the shipped default, or the site's own values: only those that differ from the shipped ones. */
  change: z.union([
    z.literal("shipped"),
    z.strictObject({
      on: z.boolean(),
      values,
      /** Where the site's own policy says so; left out, the shipped citation stands. */
      citation: words(300).optional(),
    }),
  ]),
  reason: words(500),
});
export const proposeRulesReply = z.strictObject({ changeId: id });
export const approveRulesRequest = z.strictObject({ changeId: id });
export const approveRulesReply = z.strictObject({ changeId: id, settingsVersion: z.int() });
export const declineRulesRequest = z.strictObject({ changeId: id, reason: words(500) });
export const declineRulesReply = z.strictObject({ changeId: id, decision: z.enum(["declined", "withdrawn"]) });

const setting = z.strictObject({
  on: z.boolean(),
  values: z.record(z.string(), z.union([quantity, z.number(), z.boolean(), z.string()])),
  citation: z.string(),
});

export const ruleChangeView = z.strictObject({
  id,
  rule: z.string(),
  /** What was asked for; null is the shipped default. */
  setting: setting.nullable(),
  was: setting.nullable(),
  reason: z.string(),
  proposedBy: z.string(),
  proposedRole: role,
  proposedAt: timestamp,
  /** Whoever reads this proposed it, and so cannot approve it. */
  own: z.boolean(),
  decision: z.enum(["approved", "declined", "withdrawn"]).nullable(),
  decidedBy: z.string().nullable(),
  decidedRole: role.nullable(),
  decidedAt: timestamp.nullable(),
  decisionReason: z.string().nullable(),
  settingsVersion: z.int().nullable(),
});
export type RuleChangeView = z.infer<typeof ruleChangeView>;

const shownValue = z.union([quantity, z.number(), z.boolean(), z.string()]);

export const ruleLine = z.strictObject({
  id: z.string(),
  what: z.string(),
  /** Null for a setting that no reason comes from. */
  severity: z.enum(["out", "stops", "owed", "limits", "due", "note"]).nullable(),
  citation: z.string().nullable(),
  on: z.boolean(),
  /** The settings version that last changed it; 0 is as shipped. */
  version: z.int(),
  values: z.array(
    z.strictObject({
      name: z.string(),
      shipped: shownValue,
      present: shownValue,
      citation: z.string(),
      /** Units it may be given in; empty for what has none. */
      units: z.array(z.string()),
      /** Words it may be; null where it is not a choice of words. */
      choices: z.array(z.string()).nullable(),
    }),
  ),
  /** How often it began to show in a room in the last 30 days, and after how many of these somebody acted. */
  fired: z.int(),
  acted: z.int(),
  /** Share of the rooms that ran in which it showed on the middle one of these mornings; null with no morning to look at. */
  ordinaryShare: z.number().nullable(),
  /** In more than one room in five on an ordinary morning. */
  setWrong: z.boolean(),
  /** Owed in every room on every morning by its nature; its share says nothing about its setting. */
  everyMorning: z.boolean(),
});
export type RuleLine = z.infer<typeof ruleLine>;

export const rulesView = z.strictObject({
  settingsVersion: z.int(),
  from: date,
  to: date,
  mornings: z.int(),
  rules: z.array(ruleLine),
  open: z.array(ruleChangeView),
  past: z.array(ruleChangeView),
  /** Rooms and workstations that are judged again when a change comes into force. */
  toJudge: z.int(),
  at: timestamp,
});
export type RulesView = z.infer<typeof rulesView>;
