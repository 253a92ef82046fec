import { z } from "zod";
import { DRIVES, GASES, LEAK_TESTS, WASTE_GAS } from "@/lib/domain/vocabulary";
import { gas, id, itemId, words } from "@/lib/schemas/common";

const name = words(80);
const walkingOrder = z.int("must be a whole number").min(0, "must be 0 or more").max(9_999, "must be at most 9999");

/** Suites, pipeline zones and stores; without an id it is a new one. */
export const setPlaceRequest = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("suite"), placeId: id.nullable(), name, walkingOrder }),
  z.strictObject({ kind: z.literal("zone"), placeId: id.nullable(), name }),
  z.strictObject({
    kind: z.literal("store"),
    placeId: id.nullable(),
    name,
    /** Where it lies on the walk, for the nearest spare. */
    suiteId: id.nullable(),
    walkingOrder: walkingOrder.nullable(),
  }),
]);
export const setPlaceReply = z.strictObject({ placeId: id });

const supplies = {
  suiteId: id,
  zoneId: id.nullable(),
  piped: z.array(gas).max(GASES.length),
  vacuum: z.boolean(),
  wasteGas: z.enum(WASTE_GAS),
  walkingOrder,
};
const room = { name, ...supplies };
/** A retired room is brought back by this as well. */
export const setRoomRequest = z.strictObject({ roomId: id.nullable(), ...room });
export const setRoomReply = z.strictObject({ roomId: id });
/** Several new rooms at once, alike but for their names; they follow each other on the walk from `walkingOrder` on. */
export const addRoomsRequest = z.strictObject({
  ...supplies,
  names: z.array(name).min(1, "must name at least one room").max(100, "must be at most 100 rooms at a time"),
});
export const addRoomsReply = z.strictObject({ roomIds: z.array(id) });
export const retireRoomRequest = z.strictObject({ roomId: id });
export const retireRoomReply = z.strictObject({ roomId: id });

const position = z.string().trim().min(1, "must not be empty").max(20, "must be at most 20 characters");
const model = {
  name,
  maker: name,
  drive: z.enum(DRIVES),
  driveGas: z.enum([...GASES, "none"]),
  leakTest: z.enum(LEAK_TESTS),
  oxygenSensor: z.enum(["galvanic", "paramagnetic"]),
  mounts: z.array(position).max(6, "must be at most 6 mounts"),
  yokes: z.array(z.strictObject({ position, gas })).max(8, "must be at most 8 yokes"),
  selfTestCovers: z.array(itemId),
  outletSelector: z.boolean(),
  vaporFreeMinutes: z
    .int("must be whole minutes")
    .min(1, "must be 1 or more")
    .max(600, "must be at most 600")
    .nullable(),
  vaporFreeFilterMinutes: z
    .int("must be whole minutes")
    .min(1, "must be 1 or more")
    .max(600, "must be at most 600")
    .nullable()
    .optional(),
};
export const setModelRequest = z.strictObject({ modelId: id.nullable(), ...model });
export const setModelReply = z.strictObject({ modelId: id });

const tag = words(60);
export const setWorkstationRequest = z.strictObject({
  workstationId: id.nullable(),
  tag,
  serial: words(60),
  modelId: id,
  /** Where a new one stands, or one that is brought back. One that is there is moved by a swap. */
  place: z.union([z.strictObject({ roomId: id }), z.strictObject({ storeId: id })]).nullable(),
});
export const setWorkstationReply = z.strictObject({ workstationId: id });
export const retireWorkstationRequest = z.strictObject({
  workstationId: id,
  /** The store to which its cylinders, vaporizers, absorbent and sensor go; null when it carries nothing. */
  partsTo: id.nullable(),
});
export const retireWorkstationReply = z.strictObject({ workstationId: id });

const named = { id, name: z.string() };
/** Everything the set-up of places and equipment shows. Retired rooms and workstations are in it and say so. */
export const placesView = z.strictObject({
  suites: z.array(z.strictObject({ ...named, walkingOrder: z.int() })),
  zones: z.array(z.strictObject(named)),
  stores: z.array(z.strictObject({ ...named, suiteId: id.nullable(), walkingOrder: z.int().nullable() })),
  rooms: z.array(
    z.strictObject({
      id,
      ...room,
      name: z.string(),
      walkingOrder: z.int(),
      retired: z.boolean(),
      inUse: z.boolean(),
      workstation: z.string().nullable(),
    }),
  ),
  models: z.array(z.strictObject({ id, ...model, name: z.string(), maker: z.string(), workstations: z.int() })),
  workstations: z.array(
    z.strictObject({
      id,
      tag: z.string(),
      serial: z.string(),
      modelId: id,
      roomId: id.nullable(),
      storeId: id.nullable(),
      retired: z.boolean(),
      parts: z.array(
        z.strictObject({
          kind: z.enum(["cylinder", "vaporizer", "absorbent", "oxygen-sensor"]),
          position: z.string(),
          name: z.string(),
          gas: gas.nullable(),
          agent: z.string().nullable(),
        }),
      ),
    }),
  ),
});
export type PlacesView = z.infer<typeof placesView>;

/** A part as the set-up adds it: what its label says, by the columns of its import file, and where it is. */
export const PART_FILES = {
  cylinder: "cylinders",
  vaporizer: "vaporizers",
  absorbent: "absorbent",
  "oxygen-sensor": "sensors",
} as const;
export const addPartRequest = z.strictObject({
  kind: z.enum(["cylinder", "vaporizer", "absorbent", "oxygen-sensor"]),
  /** The workstation it is fitted to, or the store it lies in: one of the two. */
  workstationId: id.nullable(),
  storeId: id.nullable(),
  /** Yoke, mount or canister; null for a sensor and for a part in a store. */
  position: position.nullable(),
  /** The other columns of the import's file, by their headers, as text: { "serial": "OX-1", "gas": "oxygen", … }. */
  cells: z.record(z.string().min(1).max(40), z.string().max(200)),
});
export const addPartReply = z.strictObject({ name: z.string() });
