import { z } from "zod";
import { READINESS } from "@/lib/domain/judgement";
import { LIMITS, WASTE_GAS } from "@/lib/domain/vocabulary";
import { gas, id, need, pressureUnit, quantity, scheme, timestamp } from "@/lib/schemas/common";

export const facilityView = z.strictObject({ id, name: z.string(), timeZone: z.string(), scheme, pressureUnit });
export type FacilityView = z.infer<typeof facilityView>;

export const occupancyView = z.discriminatedUnion("state", [
  z.strictObject({ state: z.literal("idle") }),
  z.strictObject({ state: z.literal("in-use"), since: timestamp, confirmed: z.boolean() }),
  z.strictObject({ state: z.literal("closed"), since: timestamp }),
]);

/** Who signed, by name: a mark on a screen always carries its name and time. */
export const namedMark = z.strictObject({ name: z.string(), at: timestamp });

/** Reserve oxygen on the workstation: what the gauge said, and what that is worth. */
export const reserveOxygen = z.strictObject({
  reading: quantity,
  /** Usable litres by the equation of state, and their low end; null where it refuses. */
  litres: z.number().nullable(),
  litresLow: z.number().nullable(),
  /** Minutes by hand and on the ventilator at the site's flows, from the low end of the litres to the residual. */
  minutesByHand: z.number().nullable(),
  minutesOnVentilator: z.number().nullable(),
  method: z.string(),
  observedAt: timestamp,
});

export const plannedWork = z.strictObject({
  taskKey: z.string(),
  title: z.string(),
  minutes: z.number(),
  person: z.string().nullable(),
  claimedAt: timestamp.nullable(),
});

/** One room on the board. */
export const boardRow = z.strictObject({
  roomId: id,
  name: z.string(),
  suite: z.string(),
  walkingOrder: z.int(),
  workstation: z.strictObject({ id, tag: z.string(), model: z.string() }).nullable(),
  state: z.enum(READINESS),
  occupancy: occupancyView,
  marks: z.strictObject({ equipment: namedMark.nullable(), provider: namedMark.nullable() }),
  /** The first reason's sentence, what kind it is, and how many more there are. */
  headline: z.string().nullable(),
  headlineRule: z.string().nullable(),
  moreReasons: z.int(),
  limits: z.array(z.enum(LIMITS)),
  /** Every limit is allowed by somebody who may. */
  limitsAllowed: z.boolean(),
  readyForList: z.boolean(),
  owedCount: z.int(),
  whenInUse: z.enum(["after-this-case", "act-now"]).nullable(),
  firstCase: timestamp.nullable(),
  listEnd: timestamp.nullable(),
  needs: z.array(need),
  /** Where the list comes from: entered or imported for the day, or the weekly template. */
  listFrom: z.enum(["day", "week"]).nullable().optional(),
  decideBy: timestamp.nullable(),
  /** When the clock alone next overtakes this row; at the turn of the check day at the latest, because the list is then another one. */
  goodUntil: timestamp.nullable(),
  reserve: reserveOxygen.nullable(),
  work: z.array(plannedWork),
  piped: z.array(gas),
  wasteGas: z.enum(WASTE_GAS),
});
export type BoardRow = z.infer<typeof boardRow>;

/** The whole board of a facility; nothing in it depends on who looks. */
export const board = z.strictObject({
  facility: facilityView,
  sequence: z.int(),
  /** The server's time when the rows were read; screens turn over by the server's clock, never by the device's. */
  at: timestamp,
  demo: z.boolean(),
  rooms: z.array(boardRow),
});
export type Board = z.infer<typeof board>;
