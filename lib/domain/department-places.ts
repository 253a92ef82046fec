import type {
  Department,
  DepartmentRead,
  ModelRecord,
  ModelRow,
  NameRecord,
  NameRow,
  RoomRecord,
  RoomRow,
  StoreRecord,
  StoreRow,
  SuiteRecord,
  WorkstationRecord,
  WorkstationRow,
} from "@/lib/domain/department/model";
import { type Entry, type Merged, merge, refer, type Tell } from "@/lib/domain/department-merge";

export interface Places {
  readonly suites: Merged<SuiteRecord>;
  readonly zones: Merged<NameRecord>;
  readonly stores: Merged<StoreRecord>;
  readonly rooms: Merged<RoomRecord>;
  readonly models: Merged<ModelRecord>;
  readonly workstations: Merged<WorkstationRecord>;
}

interface Given {
  readonly tell: Tell;
  readonly read: DepartmentRead;
  readonly there: Department;
  readonly newId: () => string;
}

/** Suites, zones, stores, rooms, models and workstations as they will stand. */
export function mergePlaces(given: Given): Places {
  const { tell, read, there, newId } = given;
  const { rows } = read;
  const suites = merge(tell, {
    ...byName,
    file: "suites",
    rows: rows.suites,
    existing: there.records.suites,
    build: ({ name, walkingOrder }, was) => ({ id: was?.id ?? newId(), name, walkingOrder }),
  });
  const zones = merge<NameRow, NameRecord>(tell, {
    ...byName,
    file: "zones",
    rows: rows.zones,
    existing: there.records.zones,
    build: ({ name }, was) => ({ id: was?.id ?? newId(), name }),
  });
  const stores = mergeStores(given, suites);
  const rooms = mergeRooms(given, suites, zones);
  const models = mergeModels(given);
  const workstations = mergeWorkstations(given, { rooms, stores, models });
  oneWorkstationARoom(tell, rooms, workstations);
  noMoveDuringACase(tell, there, rooms, workstations);
  oneSerialAModel(tell, workstations);
  return { suites, zones, stores, rooms, models, workstations };
}

const byName = {
  column: "name",
  ofRow: ({ name }: { readonly name: string }) => [name],
  ofRecord: ({ name }: { readonly name: string }) => [name],
};

/** A file that does not say where a store lies leaves what is known of it. */
function mergeStores({ tell, read, there, newId }: Given, suites: Places["suites"]): Merged<StoreRecord> {
  return merge<StoreRow, StoreRecord>(tell, {
    ...byName,
    file: "stores",
    rows: read.rows.stores,
    existing: there.records.stores,
    build: ({ line, name, suite, walkingOrder }, was) => ({
      id: was?.id ?? newId(),
      name,
      suiteId:
        suite === null
          ? (was?.suiteId ?? null)
          : (refer(tell, read, suites, "suite", suite, { file: "stores", line, column: "suite" })?.id ?? null),
      walkingOrder: walkingOrder ?? was?.walkingOrder ?? null,
    }),
  });
}

function mergeRooms(
  { tell, read, there, newId }: Given,
  suites: Places["suites"],
  zones: Places["zones"],
): Merged<RoomRecord> {
  return merge<RoomRow, RoomRecord>(tell, {
    ...byName,
    file: "rooms",
    rows: read.rows.rooms,
    existing: there.records.rooms,
    build: ({ line, suite, zone, piped, ...rest }, was) => ({
      ...rest,
      id: was?.id ?? newId(),
      suiteId: refer(tell, read, suites, "suite", suite, { file: "rooms", line, column: "suite" })?.id ?? "",
      zoneId:
        zone === null
          ? null
          : (refer(tell, read, zones, "pipeline zone", zone, { file: "rooms", line, column: "zone" })?.id ?? null),
      piped: [...piped].sort(),
    }),
  });
}

function mergeModels({ tell, read, there, newId }: Given): Merged<ModelRecord> {
  return merge<ModelRow, ModelRecord>(tell, {
    ...byName,
    file: "models",
    rows: read.rows.models,
    existing: there.records.models,
    build: ({ line, maker, ...document }, was) => {
      const gasDriven = document.drive.endsWith("bellows");
      if (gasDriven === (document.driveGas === "none")) {
        const right = gasDriven
          ? "Bellows are driven by oxygen or air; name which."
          : `A ${document.drive} needs no drive gas; write none.`;
        tell({ file: "models", line, column: "drive gas", value: document.driveGas, message: right });
      }
      return { id: was?.id ?? newId(), name: document.name, maker, document };
    },
  });
}

function mergeWorkstations(
  { tell, read, there, newId }: Given,
  places: Pick<Places, "rooms" | "stores" | "models">,
): Merged<WorkstationRecord> {
  const file = "workstations";
  return merge<WorkstationRow, WorkstationRecord>(tell, {
    file,
    rows: read.rows.workstations,
    existing: there.records.workstations,
    column: "tag",
    ofRow: ({ tag }) => [tag],
    ofRecord: ({ tag }) => [tag],
    build: ({ line, tag, serial, model, room, store }, was) => {
      if ((room === null) === (store === null)) {
        const message =
          room === null
            ? `Say where ${tag} stands: a room, or a store for a spare.`
            : `${tag} cannot stand in a room and in a store. Keep one of them.`;
        tell({ file, line, column: "room", value: room, message });
      }
      return {
        id: was?.id ?? newId(),
        tag,
        serial,
        modelId: refer(tell, read, places.models, "model", model, { file, line, column: "model" })?.id ?? "",
        roomId:
          room === null
            ? null
            : (refer(tell, read, places.rooms, "room", room, { file, line, column: "room" })?.id ?? null),
        storeId:
          store === null
            ? null
            : (refer(tell, read, places.stores, "store", store, { file, line, column: "store" })?.id ?? null),
      };
    },
  });
}

const nameOf = (rooms: Merged<RoomRecord>, id: string): string =>
  rooms.entries.find(({ record }) => record.id === id)?.record.name ?? "The room";

function oneWorkstationARoom(tell: Tell, rooms: Merged<RoomRecord>, { entries }: Merged<WorkstationRecord>): void {
  const inRoom = new Map<string, Entry<WorkstationRecord>>();
  // What stands there already comes first, so that the problem is told at the line that wants the room as well.
  for (const entry of [...entries].sort((left, right) => (left.line ?? 0) - (right.line ?? 0))) {
    const { roomId, tag } = entry.record;
    if (roomId === null) continue;
    const first = inRoom.get(roomId);
    if (first === undefined) {
      inRoom.set(roomId, entry);
    } else if (entry.line !== null) {
      const room = nameOf(rooms, roomId);
      const message =
        first.line === null
          ? `${room} already holds ${first.record.tag}. Give ${first.record.tag} another place in this file too, or put ${tag} elsewhere.`
          : `${room} is given to ${first.record.tag} on line ${first.line} and to ${tag} on line ${entry.line}. A room holds one workstation.`;
      tell({ file: "workstations", line: entry.line, column: "room", value: room, message });
    }
  }
}

export function isMove({ record, was }: Entry<WorkstationRecord>): boolean {
  return was !== null && (was.roomId !== record.roomId || was.storeId !== record.storeId);
}

function noMoveDuringACase(
  tell: Tell,
  there: Department,
  rooms: Merged<RoomRecord>,
  { entries }: Merged<WorkstationRecord>,
): void {
  const inUse = new Set(there.roomsInUse);
  for (const entry of entries) {
    if (entry.line === null || (entry.was !== null && !isMove(entry))) continue;
    const room = [entry.was?.roomId, entry.record.roomId].find(
      (id) => id !== null && id !== undefined && inUse.has(id),
    );
    if (!room) continue;
    const message = `${nameOf(rooms, room)} has a case in it, and ${entry.record.tag} cannot be moved out of it or into it. End the case first.`;
    tell({ file: "workstations", line: entry.line, column: "room", value: null, message });
  }
}

function oneSerialAModel(tell: Tell, { entries }: Merged<WorkstationRecord>): void {
  const seen = new Map<string, Entry<WorkstationRecord>>();
  for (const entry of [...entries].sort((left, right) => (left.line ?? 0) - (right.line ?? 0))) {
    const { modelId, serial, tag } = entry.record;
    const key = `${modelId} ${serial.toLowerCase()}`;
    const first = seen.get(key);
    if (first === undefined) seen.set(key, entry);
    else if (entry.line !== null && modelId !== "") {
      const message = `Serial number ${serial} of this model belongs to ${first.record.tag} already${first.line === null ? "" : ` (line ${first.line})`}. Correct it for ${tag}.`;
      tell({ file: "workstations", line: entry.line, column: "serial", value: serial, message });
    }
  }
}
