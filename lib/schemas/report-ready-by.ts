import { z } from "zod";
import { date, id, timestamp } from "@/lib/schemas/common";

/** One room on one morning: when it could start, against its first case. */
export const roomMorningView = z.strictObject({
  roomId: id,
  name: z.string(),
  suite: z.string(),
  firstCase: timestamp,
  readyAt: timestamp.nullable(),
  outcome: z.enum(["in-time", "late", "not-yet", "never"]),
  /** Minutes between ready and the first case; negative when the room was late. */
  minutesBefore: z.int().nullable(),
  /** Why it could not start when its first case came, or cannot now: the first reason of that moment. */
  reason: z.string().nullable(),
});

export const readyByMorning = z.strictObject({
  date,
  running: z.int(),
  inTime: z.int(),
  late: z.int(),
  never: z.int(),
  notYet: z.int(),
  /** The middle of the minutes that were left, over the rooms that were ready at all. */
  medianMinutesBefore: z.number().nullable(),
  rooms: z.array(roomMorningView),
});
export type ReadyByMorning = z.infer<typeof readyByMorning>;

export const readyByReport = z.strictObject({
  from: date,
  to: date,
  mornings: z.array(readyByMorning),
  at: timestamp,
});
export type ReadyByReport = z.infer<typeof readyByReport>;
