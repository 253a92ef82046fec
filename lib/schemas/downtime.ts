import { z } from "zod";
import { READINESS } from "@/lib/domain/judgement";
import { CHECK_KINDS } from "@/lib/domain/vocabulary";
import { answerGiven, checkItem } from "@/lib/schemas/check";
import { date, id, timeOfDay, timestamp } from "@/lib/schemas/common";

/** One room of the morning on paper. */
const printedRoom = z.strictObject({
  name: z.string(),
  suite: z.string(),
  state: z.enum(READINESS),
  /** In use, closed today, or null. */
  occupancy: z.string().nullable(),
  workstation: z.string().nullable(),
  reason: z.string().nullable(),
  firstCase: timestamp.nullable(),
  equipment: z.string().nullable(),
  provider: z.string().nullable(),
});

/** A check sheet to fill in by hand. */
const printedSheet = z.strictObject({
  room: z.string(),
  workstation: z.string(),
  model: z.string(),
  procedure: z.string(),
  items: z.array(
    z.strictObject({
      title: z.string(),
      limit: z.string().nullable(),
      answer: z.enum(["yes-no", "reading", "choice"]),
      unit: z.string().nullable(),
    }),
  ),
});

/** The morning as it goes onto paper when the network or the server is down. */
export const downtimeView = z.strictObject({
  facility: z.string(),
  timeZone: z.string(),
  at: timestamp,
  rooms: z.array(printedRoom),
  sheets: z.array(printedSheet),
});
export type DowntimeView = z.infer<typeof downtimeView>;
export type PrintedRoom = DowntimeView["rooms"][number];
export type PrintedSheet = DowntimeView["sheets"][number];

export const paperKinds = z.enum(["daily", "first-user"]);

/** The questions of a check on paper, for entering what it says. */
export const paperSheetView = z.strictObject({
  workstation: z.strictObject({ id, tag: z.string(), model: z.string() }),
  room: z.string().nullable(),
  procedure: z.string(),
  items: z.array(checkItem),
  people: z.array(z.strictObject({ id, name: z.string(), userId: z.string() })),
  today: date,
  timeZone: z.string(),
});
export type PaperSheetView = z.infer<typeof paperSheetView>;

export const enterPaperCheckRequest = z.strictObject({
  workstationId: id,
  kind: paperKinds,
  /** Who did the check and wrote it down. */
  doneBy: id,
  /** The day that the sheet says, and the times of day between which it was done; an end before the beginning is on the next day. */
  on: date,
  from: timeOfDay,
  to: timeOfDay,
  answers: z.array(answerGiven).min(1, "must hold at least one answer").max(80),
});
export const enterPaperCheckReply = z.strictObject({
  checkId: id,
  failing: z.int(),
  /** True when who enters it is who did it, so that it can be signed at once. */
  yours: z.boolean(),
});

/** What was entered after a downtime: done and entered, side by side. */
export const paperEntriesView = z.strictObject({
  entries: z.array(
    z.strictObject({
      checkId: id,
      kind: z.enum(CHECK_KINDS),
      workstation: z.string(),
      room: z.string().nullable(),
      doneBy: z.string(),
      earliest: timestamp,
      latest: timestamp,
      enteredBy: z.string(),
      enteredAt: timestamp,
      answers: z.int(),
      failing: z.int(),
      signedBy: z.string().nullable(),
    }),
  ),
  days: z.int(),
});
export type PaperEntriesView = z.infer<typeof paperEntriesView>;
