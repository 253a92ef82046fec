import { command } from "@/lib/commands/command";
import { decideRetireRoom, decideRoom, decideRooms } from "@/lib/domain/room/decide";
import type { RoomAsked } from "@/lib/domain/room/model";
import { listed } from "@/lib/domain/wording";
import {
  addRoomsReply,
  addRoomsRequest,
  retireRoomReply,
  retireRoomRequest,
  setRoomReply,
  setRoomRequest,
} from "@/lib/schemas/places";
import { loadSetUp, lockSetUp } from "@/lib/storage/set-up";
import { retireRoom as putAway, putRoom } from "@/lib/storage/set-up-write";

export const setRoom = command({
  name: "set-room",
  summary:
    "Add or change a room, or bring a retired one back: suite, zone, piped gases, vacuum, waste gas, walking order.",
  schema: setRoomRequest,
  reply: setRoomReply,
  locks: ({ roomId }) => (roomId === null ? {} : { rooms: [roomId] }),
  load: async (tx, _input, { begun }) => {
    await lockSetUp(tx, begun.scope.facilityId);
    return loadSetUp(tx, begun.scope);
  },
  decide: decideRoom,
  apply: async (tx, { was, suite }, { roomId, ...room }, context) => {
    const id = roomId ?? context.newId();
    await putRoom(tx, context.begun.scope, { ...room, piped: [...new Set(room.piped)].sort(), id });
    const how = was === null ? "Added" : was.retired ? "Brought back" : "Changed";
    const renamed = was !== null && was.name !== room.name ? ` (was ${was.name})` : "";
    return {
      reply: { roomId: id },
      note: {
        text: `${how} the room ${room.name}${renamed} in ${suite.name}`,
        details: [suppliesSaid(room)],
        data: { roomId: id, ...room },
      },
      made: { rooms: was === null ? [id] : [] },
      // Its place on the walk, or its suite, may be another one: rows change their order.
      wholeBoard: true,
    };
  },
});

const suppliesSaid = ({ piped, vacuum, wasteGas }: Pick<RoomAsked, "piped" | "vacuum" | "wasteGas">): string =>
  `Piped: ${piped.join(", ").replaceAll("-", " ") || "none"}; vacuum: ${vacuum ? "yes" : "no"}; waste gas: ${wasteGas}`;

/** A corridor of rooms in one step, such as OR 1 to OR 12: all of them or none. */
export const addRooms = command({
  name: "add-rooms",
  summary: "Add several rooms at once that are alike but for their names; they follow each other on the walk.",
  schema: addRoomsRequest,
  reply: addRoomsReply,
  locks: () => ({}),
  load: async (tx, _input, { begun }) => {
    await lockSetUp(tx, begun.scope.facilityId);
    return loadSetUp(tx, begun.scope);
  },
  decide: (known, { names, ...room }) => {
    const asked = names.map((name, at) => ({ ...room, roomId: null, name, walkingOrder: room.walkingOrder + at }));
    const decided = decideRooms(known, asked);
    return decided.ok ? { ...decided, value: { ...decided.value, asked } } : decided;
  },
  apply: async (tx, { suite, asked }, input, context) => {
    const roomIds: string[] = [];
    for (const { roomId: _, ...room } of asked) {
      const id = context.newId();
      await putRoom(tx, context.begun.scope, { ...room, piped: [...new Set(room.piped)].sort(), id });
      roomIds.push(id);
    }
    return {
      reply: { roomIds },
      note: {
        text: `Added ${asked.length} rooms in ${suite.name}: ${listed(input.names)}`,
        details: [suppliesSaid(input)],
        data: { ...input, roomIds },
      },
      made: { rooms: roomIds },
      wholeBoard: true,
    };
  },
});

export const retireRoom = command({
  name: "retire-room",
  summary: "Take a room off the board for good; what was recorded in it stays.",
  schema: retireRoomRequest,
  reply: retireRoomReply,
  locks: ({ roomId }) => ({ rooms: [roomId] }),
  load: (tx, _input, { begun }) => loadSetUp(tx, begun.scope),
  decide: (known, { roomId }) => decideRetireRoom(known, roomId),
  apply: async (tx, room, _input, context) => {
    await putAway(tx, context.begun.scope.facilityId, room.id, context.now);
    return {
      reply: { roomId: room.id },
      note: { text: `Retired the room ${room.name}`, data: { roomId: room.id } },
      wholeBoard: true,
    };
  },
});
