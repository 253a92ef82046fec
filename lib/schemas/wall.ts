import { z } from "zod";
import { READINESS } from "@/lib/domain/judgement";
import { LIMITS } from "@/lib/domain/vocabulary";
import { facilityView, occupancyView } from "@/lib/schemas/board";
import { id, timestamp } from "@/lib/schemas/common";

/**
 * One room on the wall. Everybody who passes reads a wall, so it has no staff names and nothing in anybody's own words: marks are
 * there or not, work is in hand or not, and of a reason it has the rule's own few words.
 */
export const wallRow = z.strictObject({
  roomId: id,
  name: z.string(),
  suite: z.string(),
  walkingOrder: z.int(),
  state: z.enum(READINESS),
  occupancy: occupancyView,
  equipmentChecked: z.boolean(),
  providerChecked: z.boolean(),
  limits: z.array(z.enum(LIMITS)),
  limitsAllowed: z.boolean(),
  readyForList: z.boolean(),
  whenInUse: z.enum(["after-this-case", "act-now"]).nullable(),
  firstCase: timestamp.nullable(),
  /** The first reason: which rule speaks, and what it is about in few words, the same for every room and person. */
  reason: z.strictObject({ rule: z.string(), inBrief: z.string() }).nullable(),
  decideBy: timestamp.nullable(),
  goodUntil: timestamp.nullable(),
  /** Work in hand has the time since when somebody is on it. */
  work: z.array(z.strictObject({ minutes: z.number(), inHandSince: timestamp.nullable() })),
});
export type WallRow = z.infer<typeof wallRow>;

/** The whole wall of a facility; nothing in it depends on who looks. */
export const wallBoard = z.strictObject({
  facility: facilityView,
  sequence: z.int(),
  /** The server's time when the rows were read; the wall's clock goes by it. */
  at: timestamp,
  demo: z.boolean(),
  /** What is open for many rooms at once, drills included and called so; without anybody's own words. */
  events: z.array(z.strictObject({ id, title: z.string(), drill: z.boolean(), at: timestamp, rooms: z.int() })),
  rooms: z.array(wallRow),
});
export type WallBoard = z.infer<typeof wallBoard>;
