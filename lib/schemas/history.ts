import { z } from "zod";
import { id, timestamp } from "@/lib/schemas/common";

/** One entry as a person reads it; `sequence` is its place in the facility's record. */
export const historyEntry = z.strictObject({
  sequence: z.int(),
  at: timestamp,
  command: z.string(),
  person: z.strictObject({ id: id.nullable(), name: z.string() }),
  role: z.string().nullable(),
  rooms: z.array(z.strictObject({ id, name: z.string() })),
  workstations: z.array(z.strictObject({ id, tag: z.string() })),
  /** One sentence: what was done. */
  text: z.string(),
  details: z.array(z.string()),
});
export type HistoryEntry = z.infer<typeof historyEntry>;

export const historyQuery = z.strictObject({
  room: id.optional(),
  person: id.optional(),
  before: z.coerce.number().int().nonnegative().optional(),
  limit: z.coerce.number().int().min(1).max(200).default(50),
});
export const historyPage = z.strictObject({ entries: z.array(historyEntry), next: z.int().nullable() });
export type HistoryPage = z.infer<typeof historyPage>;
