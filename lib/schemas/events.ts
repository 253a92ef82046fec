import { z } from "zod";
import { DEPARTMENT_EVENT_KINDS } from "@/lib/domain/event/model";
import { READINESS } from "@/lib/domain/judgement";
import { occupancyView } from "@/lib/schemas/board";
import { gas, id, itemId, quantity, timestamp, words } from "@/lib/schemas/common";

export const raiseEventRequest = z.strictObject({
  kind: z.enum(DEPARTMENT_EVENT_KINDS),
  /** The zone it happened in; for a recall the model instead. */
  zoneId: id.optional(),
  modelId: id.optional(),
  /** For a pipeline: which gas, and what the gauge or the alarm panel says where somebody read it. */
  gas: gas.optional(),
  reading: quantity.optional(),
  /** Practised: told and marked, and no readiness changes. */
  drill: z.boolean(),
  note: words(300).optional(),
});
export const raiseEventReply = z.strictObject({ eventId: id, taskKey: z.string(), rooms: z.int(), at: timestamp });

export const returnToServiceRequest = z.strictObject({
  eventId: id,
  rooms: z
    .array(
      z.strictObject({
        roomId: id,
        pressure: quantity.optional(),
        /** The right gas, by an oxygen analyzer on pipeline gas with the cylinder shut. */
        identity: z.boolean().optional(),
        /** After a power failure: the workstation runs on mains again. */
        mains: z.boolean().optional(),
      }),
    )
    .min(1, "name at least one room")
    .max(200),
});
export const returnToServiceReply = z.strictObject({
  eventId: id,
  returned: z.array(z.string()),
  left: z.array(z.string()),
  ended: z.boolean(),
});

export const endEventRequest = z.strictObject({ eventId: id, reason: words(300) });
export const endEventReply = z.strictObject({ eventId: id, endedAt: timestamp });

const named = z.strictObject({ id, name: z.string() });

/** One event as the board tells it: one line, however many rooms it touches. */
export const eventLine = z.strictObject({
  id,
  kind: z.enum(DEPARTMENT_EVENT_KINDS),
  drill: z.boolean(),
  title: z.string(),
  at: timestamp,
  by: z.string(),
  /** "5 rooms: 2 in use, act now; 3 do not use". */
  effect: z.string(),
  endedAt: timestamp.nullable(),
});
export type EventLine = z.infer<typeof eventLine>;

/** What it means for one room. */
export const eventRoom = z.strictObject({
  roomId: id,
  name: z.string(),
  suite: z.string(),
  workstation: z.string().nullable(),
  state: z.enum(READINESS),
  occupancy: occupancyView,
  whenInUse: z.enum(["after-this-case", "act-now"]).nullable(),
  reason: z.string().nullable(),
  firstCase: timestamp.nullable(),
  minutesByHand: z.number().nullable(),
  minutesOnVentilator: z.number().nullable(),
  /** The looks still missing; empty once the room is back. */
  left: z.array(itemId),
});
export type EventRoom = z.infer<typeof eventRoom>;

export const eventView = z.strictObject({
  line: eventLine,
  zone: named.nullable(),
  model: named.nullable(),
  gas: gas.nullable(),
  reading: quantity.nullable(),
  note: z.string().nullable(),
  endedBy: z.string().nullable(),
  endReason: z.string().nullable(),
  card: z.strictObject({
    title: z.string(),
    steps: z.array(z.strictObject({ act: z.string(), beware: z.string().optional() })),
    source: z.string(),
  }),
  rooms: z.array(eventRoom),
  taskKey: z.string(),
  claim: z.strictObject({ name: z.string(), since: timestamp }).nullable(),
  at: timestamp,
});
export type EventView = z.infer<typeof eventView>;

export const eventsView = z.strictObject({
  open: z.array(eventLine),
  ended: z.array(eventLine),
  zones: z.array(named.extend({ rooms: z.int(), piped: z.array(gas) })),
  models: z.array(named.extend({ workstations: z.int() })),
  at: timestamp,
});
export type EventsView = z.infer<typeof eventsView>;

export const openEventsView = z.strictObject({ events: z.array(eventLine), at: timestamp });
export type OpenEventsView = z.infer<typeof openEventsView>;
