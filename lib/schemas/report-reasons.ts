import { z } from "zod";
import { SEVERITIES } from "@/lib/domain/judgement";
import { date, id, timestamp } from "@/lib/schemas/common";

/** How often one rule gave a reason, counted by rooms and check days. */
export const reasonLine = z.strictObject({
  rule: z.string(),
  /** The rule in a few words, and in a sentence. */
  inBrief: z.string(),
  what: z.string(),
  severity: z.enum(SEVERITIES),
  /** Room-days on which it showed, of the room-days looked at. */
  roomDays: z.int(),
  /** Hours for which it stood, over all rooms. */
  hours: z.number(),
  /** Mean hours from appearing until gone, where it went within the days looked at. */
  hoursToCleared: z.number().nullable(),
  days: z.array(z.strictObject({ date, rooms: z.int() })),
  rooms: z.array(z.strictObject({ roomId: id, name: z.string(), days: z.int(), text: z.string() })),
});

export const reasonsReport = z.strictObject({
  from: date,
  to: date,
  roomDays: z.int(),
  reasons: z.array(reasonLine),
  at: timestamp,
});
export type ReasonsReport = z.infer<typeof reasonsReport>;
