import { command } from "@/lib/commands/command";
import { decideRetireRoom, decideRoom } from "@/lib/domain/room/decide";
import { retireRoomReply, retireRoomRequest, setRoomReply, setRoomRequest } from "@/lib/schemas/places";
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
        details: [
          `Piped: ${room.piped.join(", ").replaceAll("-", " ") || "none"}; vacuum: ${room.vacuum ? "yes" : "no"}; waste gas: ${room.wasteGas}`,
        ],
        data: { roomId: id, ...room },
      },
      made: { rooms: was === null ? [id] : [] },
      // Its place on the walk, or its suite, may be another one: rows change their order.
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
