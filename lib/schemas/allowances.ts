import { z } from "zod";
import { id, role, ruleId, timestamp, words } from "@/lib/schemas/common";

export const revokeAllowanceRequest = z.strictObject({
  workstationId: id,
  rule: ruleId,
  /** Why it no longer holds: "vaporizer came back leaking". */
  reason: words(300),
});
export const revokeAllowanceReply = z.strictObject({ workstationId: id, rule: z.string(), revokedAt: timestamp });

/** One limit that stands, and whether somebody allowed use with it. */
export const allowedLimit = z.strictObject({
  workstation: z.strictObject({ id, tag: z.string() }),
  room: z.strictObject({ id, name: z.string() }).nullable(),
  rule: z.string(),
  what: z.string(),
  /**
   * allowed: in force until `until` · waits: allowed by some of those who must agree · not-allowed: for somebody to decide ·
   * ended: its time is over and the next case is stopped · cleared: the limit itself is gone, and the allowance means nothing now
   */
  standing: z.enum(["allowed", "waits", "not-allowed", "ended", "cleared"]),
  by: z.array(z.strictObject({ name: z.string(), role })),
  stillNeeds: z.array(role),
  mayAllow: z.array(role),
  measures: z.string().nullable(),
  /** By the rule: what is done first, and what the provider does otherwise than usual. */
  first: z.string().nullable(),
  differently: z.string().nullable(),
  until: timestamp.nullable(),
});
export type AllowedLimit = z.infer<typeof allowedLimit>;

export const vaporFreeView = z.strictObject({
  requestId: id.nullable(),
  room: z.strictObject({ id, name: z.string() }),
  workstation: z.strictObject({ id, tag: z.string() }).nullable(),
  neededAt: timestamp.nullable(),
  by: z.string().nullable(),
  note: z.string().nullable(),
  standing: z.enum(["prepared", "to-prepare", "no-workstation"]),
  /** "Prepared vapor-free at 06:20", "Not vapor-free: a vaporizer is mounted". */
  why: z.string(),
  /** What the model asks for; null where its maker gives no time. */
  flushMinutes: z.number().nullable(),
  filterMinutes: z.number().nullable(),
});
export type VaporFreeView = z.infer<typeof vaporFreeView>;

export const allowancesView = z.strictObject({
  limits: z.array(allowedLimit),
  vaporFree: z.array(vaporFreeView),
  rooms: z.array(z.strictObject({ id, name: z.string() })),
  at: timestamp,
});
export type AllowancesView = z.infer<typeof allowancesView>;

export const requestVaporFreeRequest = z.strictObject({
  roomId: id,
  /** When the case is to begin. */
  neededAt: timestamp,
  note: words(300).optional(),
});
export const requestVaporFreeReply = z.strictObject({ requestId: id, neededAt: timestamp });
export const withdrawVaporFreeRequest = z.strictObject({ requestId: id, roomId: id });
export const withdrawVaporFreeReply = z.strictObject({ requestId: id });

export const prepareVaporFreeRequest = z.strictObject({
  workstationId: id,
  method: z.enum(["flush", "filters"]),
  /** When the flush began; it ended when this is recorded, or at `endedAt`. */
  startedAt: timestamp,
  endedAt: timestamp,
});
export const prepareVaporFreeReply = z.strictObject({ workstationId: id, minutes: z.int(), checkId: id });
