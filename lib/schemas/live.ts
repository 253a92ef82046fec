import { z } from "zod";
import { boardRow } from "@/lib/schemas/board";
import { id, timestamp } from "@/lib/schemas/common";
import { wallRow } from "@/lib/schemas/wall";

/**
 * The events of GET /api/v1/events (Server-Sent Events), by name. `sequence` is the last entry of the facility's history that the
 * screen then knows of; `at` is the server's time, by which screens turn over.
 */
export const helloEvent = z.strictObject({ facility: id, sequence: z.int(), at: timestamp });

export const rowsEvent = z.strictObject({
  facility: id,
  sequence: z.int(),
  /** The sequence this stream told before. A screen that stands earlier than that has missed something and reads the board again. */
  after: z.int(),
  at: timestamp,
  /** Rooms, and spare workstations, whose state or tasks may have changed. */
  holders: z.array(id),
  /** `rooms` is the whole board, not only what changed: nothing can have been missed. */
  complete: z.boolean(),
  rooms: z.array(boardRow),
});

/** What a wall gets in the place of `rows`: every room each time, without names, so that a wall never has to ask. */
export const wallEvent = z.strictObject({ facility: id, sequence: z.int(), at: timestamp, rooms: z.array(wallRow) });

/** Proof that a change made now would arrive: it went through the database and came back. */
export const beatEvent = z.strictObject({ at: timestamp });

/** The last word of a stream that the server ends for good. */
export const endedEvent = z.strictObject({ reason: z.enum(["session-ended", "too-many-streams"]) });

export type HelloEvent = z.infer<typeof helloEvent>;
export type RowsEvent = z.infer<typeof rowsEvent>;
export type WallEvent = z.infer<typeof wallEvent>;
export type BeatEvent = z.infer<typeof beatEvent>;
export type EndedEvent = z.infer<typeof endedEvent>;

export interface LiveEvents {
  hello: HelloEvent;
  rows: RowsEvent;
  wall: WallEvent;
  beat: BeatEvent;
  ended: EndedEvent;
}
