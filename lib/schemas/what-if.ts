import { z } from "zod";
import { READINESS } from "@/lib/domain/judgement";
import { WITHDRAWN_PARTS } from "@/lib/domain/what-if/model";
import { occupancyView } from "@/lib/schemas/board";
import { id, timestamp, words } from "@/lib/schemas/common";
import { sparesView } from "@/lib/schemas/moves";

/** What is supposed, as the address names it. Nothing of it is written. */
export const whatIfQuery = z
  .strictObject({
    what: z.enum(["pipeline-fails", "workstation-out", "withdrawn"]),
    /** Where the pipeline fails; without a zone it fails everywhere. */
    zoneId: id.optional(),
    workstationId: id.optional(),
    part: z.enum(WITHDRAWN_PARTS).optional(),
    /** A tag or serial number, or the beginning that a lot shares. */
    named: words(60).optional(),
  })
  .superRefine(({ what, workstationId, part, named }, context) => {
    const missing = (field: string, message: string) => context.addIssue({ code: "custom", path: [field], message });
    if (what === "workstation-out" && workstationId === undefined)
      missing("workstationId", "must be the id of the workstation that would be out of use");
    if (what === "withdrawn" && part === undefined) missing("part", "must be vaporizer, cylinder or absorbent");
    if (what === "withdrawn" && named === undefined)
      missing("named", "must be a tag or serial number, or the beginning that a lot shares");
  });
export type WhatIfQuery = z.infer<typeof whatIfQuery>;

const standing = z.strictObject({ state: z.enum(READINESS), reason: z.string().nullable(), forList: z.boolean() });

export const supposedRoom = z.strictObject({
  roomId: id,
  name: z.string(),
  suite: z.string(),
  workstation: z.string().nullable(),
  occupancy: occupancyView,
  firstCase: timestamp.nullable(),
  is: standing,
  wouldBe: standing,
  whenInUse: z.enum(["after-this-case", "act-now"]).nullable(),
  gone: z.array(z.string()),
  changes: z.boolean(),
});
export type SupposedRoom = z.infer<typeof supposedRoom>;

export const reserveRoom = z.strictObject({
  roomId: id,
  room: z.string(),
  inUse: z.boolean(),
  minutesByHand: z.number().nullable(),
  minutesOnVentilator: z.number().nullable(),
  drivenByOxygen: z.boolean(),
  readAt: timestamp.nullable(),
});
export type ReserveRoom = z.infer<typeof reserveRoom>;

const lasts = z.strictObject({
  firstOut: z.strictObject({ room: z.string(), minutes: z.number() }),
  allRooms: z.number(),
});

export const whatIfView = z.strictObject({
  /** Always true: nothing of this was recorded, and nobody was told. */
  supposed: z.literal(true),
  title: z.string(),
  rooms: z.array(supposedRoom),
  /** For a failed pipeline: who lasts how long, the shortest first, and what the stores hold. */
  reserve: z
    .strictObject({
      rooms: z.array(reserveRoom),
      store: z.strictObject({ cylinders: z.int(), litres: z.number() }),
      byHand: lasts.nullable(),
      onVentilator: lasts.nullable(),
    })
    .nullable(),
  /** For a workstation out: the best spare, and the moves that follow. */
  swap: z
    .strictObject({
      spare: sparesView.shape.suitable.element.nullable(),
      moves: z.array(z.strictObject({ text: z.string(), minutes: z.number().nullable() })),
      others: z.int(),
    })
    .nullable(),
  at: timestamp,
});
export type WhatIfView = z.infer<typeof whatIfView>;

/** What can be chosen. */
export const whatIfChoices = z.strictObject({
  zones: z.array(z.strictObject({ id, name: z.string() })),
  workstations: z.array(z.strictObject({ id, tag: z.string(), room: z.string() })),
  vaporizers: z.array(z.string()),
  cylinders: z.array(z.string()),
  absorbents: z.array(z.string()),
});
export type WhatIfChoices = z.infer<typeof whatIfChoices>;
