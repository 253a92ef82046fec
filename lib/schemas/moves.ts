import { z } from "zod";
import { READINESS } from "@/lib/domain/judgement";
import { AGENTS, LIMITS } from "@/lib/domain/vocabulary";
import { date, id, itemId, role, subject, timestamp, words } from "@/lib/schemas/common";

/** An item that will be owed, in the words of the screens. */
export const owedItem = z.strictObject({ item: itemId, itemName: z.string(), subject, subjectName: z.string() });
export type OwedItem = z.infer<typeof owedItem>;

export const placeName = z.strictObject({ id, name: z.string() });

export const swapWorkstationRequest = z.strictObject({
  roomId: id,
  /** The workstation seen in the room, or null for a room seen empty: refused when it is another by now. */
  outgoingWorkstationId: id.nullable(),
  incomingWorkstationId: id,
  /** Where the outgoing one goes: a store, or the other's room when the two change places; null when nothing goes out. */
  outgoingTo: z.union([z.strictObject({ store: id }), z.literal("exchange")]).nullable(),
  /** Taken although nobody has checked it: its whole check is then owed in the room. */
  acceptUnchecked: z.boolean().optional(),
});
export const swapWorkstationReply = z.strictObject({
  roomId: id,
  incomingTag: z.string(),
  outgoingTag: z.string().nullable(),
  owed: z.array(owedItem),
  recheckTaskKey: z.string().nullable(),
  at: timestamp,
});

const spare = {
  workstationId: id,
  tag: z.string(),
  model: z.string(),
  store: placeName.nullable(),
  /** Rooms between it and here along the walk; null where nobody said where the store lies. */
  distance: z.int().nullable(),
};

export const sparesView = z.strictObject({
  room: placeName,
  outgoing: z.strictObject({ id, tag: z.string() }).nullable(),
  swapMinutes: z.number(),
  stores: z.array(placeName),
  /** Best first. */
  suitable: z.array(
    z.strictObject({
      ...spare,
      state: z.enum(READINESS),
      why: z.string(),
      limits: z.array(z.enum(LIMITS)),
      owed: z.array(owedItem),
      minutes: z.number(),
      /** What of the room itself still stands in the way; a swap does not clear it. */
      roomRemains: z.array(z.string()),
    }),
  ),
  unsuitable: z.array(
    z.strictObject({
      ...spare,
      why: z.string(),
      /** One that is not checked is taken with `acceptUnchecked`. */
      checked: z.boolean(),
      acceptable: z.boolean(),
    }),
  ),
  at: timestamp,
});
export type SparesView = z.infer<typeof sparesView>;

const tag = words(60);
const position = z.string().min(1, "must name the place on the workstation").max(20);
const known = z.union([z.strictObject({ id }), z.strictObject({ tag })]);
const sameProduct = z.strictObject({ sameProduct: z.literal(true) });

export const PART_KINDS = ["vaporizer", "absorbent", "oxygen-sensor"] as const;
export const fitPartRequest = z.strictObject({
  workstationId: id,
  part: z.discriminatedUnion("kind", [
    z.strictObject({
      kind: z.literal("vaporizer"),
      which: known,
      /** The agent on its label as somebody read it; refused when the record says another. */
      agent: z.enum(AGENTS).optional(),
    }),
    /** A new charge or sensor of the same product as the one taken off is recorded as one of its own. */
    z.strictObject({ kind: z.literal("absorbent"), which: z.union([known, sameProduct]) }),
    z.strictObject({ kind: z.literal("oxygen-sensor"), which: z.union([known, sameProduct]) }),
  ]),
  /** Mount or canister; for a sensor its place, as the workstation has it. */
  position,
  /** What was seen there, or null for an empty place: refused when it is another by now. */
  takesOff: id.nullable(),
  /** For a vaporizer that now sits on this workstation, or on another one: whose it is. */
  takenFrom: id.optional(),
  /** Where the vaporizer that comes off goes; the first store when nobody says. */
  toStoreId: id.optional(),
});
export const fitPartReply = z.strictObject({
  workstationId: id,
  kind: z.enum(PART_KINDS),
  fitted: z.string(),
  takenOff: z.string().nullable(),
  recheckTaskKey: z.string().nullable(),
});

export const removePartRequest = z.strictObject({
  workstationId: id,
  kind: z.literal("vaporizer"),
  partId: id,
  toStoreId: id.optional(),
});
export const removePartReply = z.strictObject({
  workstationId: id,
  removed: z.string(),
  recheckTaskKey: z.string().nullable(),
});

const stored = placeName.nullable();
export const sparePartsView = z.strictObject({
  workstationId: id,
  stores: z.array(placeName),
  mounts: z.array(
    z.strictObject({
      mount: z.string(),
      fitted: z.strictObject({ id, tag: z.string(), agent: z.string() }).nullable(),
    }),
  ),
  vaporizers: z.array(
    z.strictObject({
      id,
      tag: z.string(),
      agent: z.string(),
      filler: z.string(),
      calibrationDue: date.nullable(),
      store: stored,
      fittedTo: z
        .strictObject({
          workstationId: id,
          tag: z.string(),
          roomName: z.string().nullable(),
          mount: z.string(),
          inUse: z.boolean(),
        })
        .nullable(),
    }),
  ),
  absorbent: z.array(z.strictObject({ id, tag: z.string(), product: z.string(), massG: z.number(), store: stored })),
  oxygenSensors: z.array(z.strictObject({ id, tag: z.string(), kind: z.string(), store: stored })),
  /** For each yoke what stands on it, and the cylinders of its gas in the stores. */
  yokes: z.array(
    z.strictObject({
      position: z.string(),
      gas: z.string(),
      fitted: z.strictObject({ id, serial: z.string(), size: z.string() }).nullable(),
      spares: z.array(
        z.strictObject({ id, serial: z.string(), size: z.string(), store: z.string(), contents: z.string() }),
      ),
    }),
  ),
  at: timestamp,
});
export type SparePartsView = z.infer<typeof sparePartsView>;

export const reportFaultRequest = z.strictObject({
  workstationId: id,
  text: words(500),
  /** "I would not use it": stops the workstation until somebody has looked. */
  wouldNotUse: z.boolean(),
});
export const reportFaultReply = z.strictObject({ faultId: id });
export const lookAtFaultRequest = z.strictObject({ workstationId: id, faultId: id, conclusion: words(500) });
export const lookAtFaultReply = z.strictObject({ faultId: id });
export const faultView = z.strictObject({
  id,
  text: z.string(),
  wouldNotUse: z.boolean(),
  name: z.string(),
  at: timestamp,
});

export const useInEmergencyRequest = z.strictObject({ roomId: id, reason: words(300) });
export const useInEmergencyReply = z.strictObject({ roomId: id, at: timestamp });
export const changeProviderRequest = z.strictObject({
  roomId: id,
  confirmed: z.boolean(),
  note: words(300).optional(),
});
export const changeProviderReply = z.strictObject({ roomId: id, checkId: id, at: timestamp });

export const emergencyQuery = z
  .strictObject({ from: date, to: date })
  .refine(({ from, to }) => from <= to, { error: "must not be before `from`", path: ["to"] });
/** A case that began in a room that might not start. */
export const emergencyUseView = z.strictObject({
  id,
  roomName: z.string(),
  workstationTag: z.string().nullable(),
  name: z.string(),
  role,
  reason: z.string(),
  /** What the room said when the case began. */
  state: z.enum(READINESS),
  why: z.string(),
  at: timestamp,
  endedAt: timestamp.nullable(),
  /** Has the full check that is owed afterwards been signed? */
  checkedSince: z.boolean(),
});
export const emergencyReport = z.strictObject({ uses: z.array(emergencyUseView), at: timestamp });
export type EmergencyReport = z.infer<typeof emergencyReport>;
