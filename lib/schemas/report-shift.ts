import { z } from "zod";
import { READINESS } from "@/lib/domain/judgement";
import { id, timestamp } from "@/lib/schemas/common";
import { dutyNow } from "@/lib/schemas/duty";
import { historyEntry } from "@/lib/schemas/history";
import { emergencyUseView } from "@/lib/schemas/moves";
import { taskView } from "@/lib/schemas/task";

/** How long the sheet looks back. */
export const SHIFT_HOURS = [8, 12, 24] as const;
const LONGEST = 48;

export const shiftQuery = z.strictObject({
  hours: z.coerce.number().int().min(1).max(LONGEST).default(12),
});

/** What one shift leaves to the next. */
export const shiftSheet = z.strictObject({
  from: timestamp,
  to: timestamp,
  /** Rooms that cannot start as they are, the gravest first. */
  rooms: z.array(
    z.strictObject({
      roomId: id,
      name: z.string(),
      state: z.enum(READINESS),
      reason: z.string().nullable(),
      moreReasons: z.int(),
      inUse: z.boolean(),
    }),
  ),
  /** Who is on duty at the sheet's end, and until when: whom to call. */
  duty: dutyNow,
  /** Cases that began within these hours in a room that might not start, newest first. */
  emergencies: z.array(emergencyUseView),
  /** Faults reported in words that nobody has looked at yet. */
  faults: z.array(
    z.strictObject({
      tag: z.string(),
      place: z.string(),
      text: z.string(),
      wouldNotUse: z.boolean(),
      name: z.string(),
      at: timestamp,
    }),
  ),
  held: z.array(
    z.strictObject({ tag: z.string(), place: z.string(), reason: z.string(), name: z.string(), since: timestamp }),
  ),
  failed: z.array(
    z.strictObject({ room: z.string(), item: z.string(), answer: z.string(), name: z.string(), at: timestamp }),
  ),
  /** Entries of the history, by what they are about. */
  moved: z.array(historyEntry),
  changed: z.array(historyEntry),
  holds: z.array(historyEntry),
  allowed: z.array(historyEntry),
  reported: z.array(historyEntry),
  open: z.array(taskView),
  at: timestamp,
});
export type ShiftSheet = z.infer<typeof shiftSheet>;
