import { z } from "zod";
import { READINESS, SEVERITIES } from "@/lib/domain/judgement";
import { LIMITS } from "@/lib/domain/vocabulary";
import { facilityView, namedMark, occupancyView, reserveOxygen } from "@/lib/schemas/board";
import { date, id, timestamp } from "@/lib/schemas/common";

export const momentQuery = z.strictObject({ at: timestamp });
/** One day's log; today without a date. */
export const morningQuery = z.strictObject({ date: date.optional() });

const reason = z.strictObject({ rule: z.string(), severity: z.enum(SEVERITIES), text: z.string() });

/** From when to when a room stood how, by the log of changes. */
export const stretch = z.strictObject({
  from: timestamp,
  to: timestamp.nullable(),
  state: z.enum(READINESS),
  startable: z.boolean(),
  headline: z.string().nullable(),
  more: z.int(),
});
export type Stretch = z.infer<typeof stretch>;

export const pastDay = z.strictObject({
  facility: facilityView,
  date,
  from: timestamp,
  to: timestamp,
  /** Rooms in walking order. */
  rooms: z.array(
    z.strictObject({
      roomId: id,
      name: z.string(),
      firstCase: timestamp.nullable(),
      busy: z.array(z.strictObject({ state: z.enum(["in-use", "closed"]), from: timestamp, to: timestamp.nullable() })),
      stretches: z.array(stretch),
    }),
  ),
  at: timestamp,
});
export type PastDay = z.infer<typeof pastDay>;

/** A room at one past moment: what was said then, and what its evidence of then says today. */
export const pastRoom = z.strictObject({
  roomId: id,
  name: z.string(),
  suite: z.string(),
  workstation: z.strictObject({ id, tag: z.string(), model: z.string() }).nullable(),
  occupancy: occupancyView,
  firstCase: timestamp.nullable(),
  state: z.enum(READINESS),
  marks: z.strictObject({ equipment: namedMark.nullable(), provider: namedMark.nullable() }),
  reasons: z.array(reason),
  limits: z.array(z.enum(LIMITS)),
  owed: z.int(),
  readyForList: z.boolean(),
  reserve: reserveOxygen.nullable(),
  fitted: z.array(z.strictObject({ what: z.string(), where: z.string() })),
  /** The last line of the log by then; null before the room was ever judged. */
  logged: z
    .strictObject({
      at: timestamp,
      cause: z.string(),
      state: z.enum(READINESS),
      engine: z.int(),
      settings: z.int(),
      /**
       * same: the replay says the same · overtaken: the clock had overtaken the line, and readers judged for themselves ·
       * other-rules: written by an earlier version of the rules' code · differs: neither, and worth a look
       */
      agrees: z.enum(["same", "overtaken", "other-rules", "differs"]),
      differences: z.array(z.string()),
    })
    .nullable(),
});
export type PastRoom = z.infer<typeof pastRoom>;

export const pastBoard = z.strictObject({
  facility: facilityView,
  asOf: timestamp,
  rooms: z.array(pastRoom),
  at: timestamp,
});
export type PastBoard = z.infer<typeof pastBoard>;
export const pastRoomView = z.strictObject({ facility: facilityView, asOf: timestamp, room: pastRoom, at: timestamp });
export type PastRoomView = z.infer<typeof pastRoomView>;
