import { z } from "zod";
import { date, id, role, timeOfDay, timestamp } from "@/lib/schemas/common";

/** One stretch of duty; an end at or before its beginning is on the next day. */
export const dutySpan = z.strictObject({ role, from: timeOfDay, to: timeOfDay });

export const setDutyRequest = z.strictObject({
  date,
  personId: id,
  /** Replaces what this person's roster said for that day; none: off duty. */
  spans: z.array(dutySpan).max(10, "must hold at most 10 stretches"),
});
export const setDutyReply = z.strictObject({ date, personId: id, spans: z.array(dutySpan) });

export const importDutyRequest = z.strictObject({ csv: z.string().min(1, "must hold a file").max(1_000_000) });
export const importDutyReply = z.strictObject({ people: z.int(), spans: z.int(), merged: z.int() });

export const dutyQuery = z.strictObject({ date: date.optional() });
export const dutyView = z.strictObject({
  date,
  people: z.array(z.strictObject({ personId: id, name: z.string(), spans: z.array(dutySpan) })),
  at: timestamp,
});
export type DutyView = z.infer<typeof dutyView>;

/** Who is on duty now. `onRoster` is false where nobody entered a roster, which is not the same as nobody being there. */
export const dutyNow = z.strictObject({
  onRoster: z.boolean(),
  people: z.array(z.strictObject({ personId: id, name: z.string(), roles: z.array(role), until: timestamp })),
});
