import { z } from "zod";
import { NEEDS } from "@/lib/domain/vocabulary";
import type { WEEKDAYS } from "@/lib/domain/weekly-template/model";
import { date, id, need, timeOfDay, timestamp } from "@/lib/schemas/common";

const list = {
  firstCase: timeOfDay.nullable(),
  ends: timeOfDay.nullable(),
  /** Empty when nobody knows: then volatile agent, ventilator and low flow are taken to be needed. */
  needs: z.array(need).max(NEEDS.length),
  setUpMinutes: z.int("must be whole minutes").min(0, "must be 0 or more").max(240, "must be at most 240"),
};
const weekday = z
  .int()
  .min(1, "must be from 1 (Monday) to 7 (Sunday)")
  .max(7, "must be from 1 (Monday) to 7 (Sunday)")
  .transform((day) => day as (typeof WEEKDAYS)[number]);

/** The whole week of some rooms, from today on. A weekday that is not named says nothing of the room. */
export const setWeeklyTemplateRequest = z.strictObject({
  roomIds: z.array(id).min(1, "must name at least one room").max(500, "must be at most 500 rooms"),
  days: z
    .array(
      z.discriminatedUnion("closed", [
        z.strictObject({ weekday, closed: z.literal(true) }),
        z.strictObject({ weekday, closed: z.literal(false), ...list }),
      ]),
    )
    .max(7, "must be at most seven days"),
});
export const setWeeklyTemplateReply = z.strictObject({ from: date, rooms: z.int() });

/** Today's list of one room by hand; null goes back to the weekly template. */
export const setListRequest = z.strictObject({ roomId: id, list: z.strictObject(list).nullable() });
export const setListReply = z.strictObject({ roomId: id, date });

const shownList = {
  firstCase: z.string().nullable(),
  ends: z.string().nullable(),
  needs: z.array(need),
  setUpMinutes: z.int(),
};
export const weekView = z.strictObject({
  /** The check day that is today, and its weekday. */
  today: date,
  weekday: z.int(),
  rooms: z.array(
    z.strictObject({
      id,
      name: z.string(),
      suite: z.string(),
      days: z.array(z.strictObject({ weekday: z.int(), closed: z.boolean(), ...shownList })),
      /** The list that was entered or imported for today; null when the weekly template holds. */
      list: z.strictObject(shownList).nullable(),
    }),
  ),
  at: timestamp,
});
export type WeekView = z.infer<typeof weekView>;
