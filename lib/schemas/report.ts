import { z } from "zod";
import { date, id, timestamp } from "@/lib/schemas/common";

const LONGEST_REPORT = 366 * 24 * 60 * 60 * 1000;

export const completionQuery = z
  .strictObject({ from: date, to: date })
  .refine(({ from, to }) => from <= to, { path: ["to"], message: "must not be before from" })
  .refine(({ from, to }) => Date.parse(to) - Date.parse(from) < LONGEST_REPORT, {
    path: ["to"],
    message: "must be at most 366 days from the first to the last; ask year by year",
  });

/** Was the daily check of one room done on one check day, and in time? A closed day is out of the count. */
export const completionCell = z.strictObject({
  date,
  state: z.enum(["done", "late", "missed", "closed", "not-due"]),
  equipmentAt: timestamp.nullable(),
  equipmentBy: z.string().nullable(),
  providerAt: timestamp.nullable(),
  providerBy: z.string().nullable(),
  firstCase: timestamp.nullable(),
  failures: z.array(z.string()),
  swaps: z.array(z.string()),
});
export const completionReport = z.strictObject({
  from: date,
  to: date,
  rooms: z.array(
    z.strictObject({
      roomId: id,
      name: z.string(),
      suite: z.string(),
      cells: z.array(completionCell),
      done: z.int(),
      due: z.int(),
    }),
  ),
  done: z.int(),
  due: z.int(),
  /** Percent with one decimal, or null for "n/a" when nothing was due. */
  percent: z.number().nullable(),
});
export type CompletionReport = z.infer<typeof completionReport>;
