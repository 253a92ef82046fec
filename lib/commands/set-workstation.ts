import { command } from "@/lib/commands/command";
import { decideRetireWorkstation, decideWorkstation } from "@/lib/domain/equipment/decide";
import { refused } from "@/lib/domain/outcome";
import {
  retireWorkstationReply,
  retireWorkstationRequest,
  setWorkstationReply,
  setWorkstationRequest,
} from "@/lib/schemas/places";
import { moveWorkstations } from "@/lib/storage/placements";
import { loadSetUp, lockSetUp } from "@/lib/storage/set-up";
import { retireWorkstation as putAway, putWorkstation } from "@/lib/storage/set-up-write";

export const setWorkstation = command({
  name: "set-workstation",
  summary: "Add or change a workstation, or bring a retired one back.",
  schema: setWorkstationRequest,
  reply: setWorkstationReply,
  locks: ({ workstationId, place }) => ({
    rooms: place && "roomId" in place ? [place.roomId] : [],
    workstations: workstationId === null ? [] : [workstationId],
  }),
  load: async (tx, _input, { begun }) => {
    await lockSetUp(tx, begun.scope.facilityId);
    return loadSetUp(tx, begun.scope);
  },
  decide: decideWorkstation,
  apply: async (tx, { was }, { workstationId, place, ...rest }, context) => {
    const { scope } = context.begun;
    const id = workstationId ?? context.newId();
    await putWorkstation(tx, scope, { ...rest, id });
    if (place !== null) {
      const moved = await moveWorkstations(
        tx,
        scope.facilityId,
        [{ id: context.newId(), workstationId: id, to: place }],
        context.now,
      );
      if (!moved)
        return refused("moved-on", `The place of ${rest.tag} was taken in the meantime. Nothing was changed.`, "place");
    }
    const how = was === null ? "Added" : was.retired ? "Brought back" : "Changed";
    return {
      reply: { workstationId: id },
      note: {
        text: `${how} the workstation ${rest.tag}, serial number ${rest.serial}`,
        data: { workstationId: id, ...rest, place },
      },
      made: { workstations: was === null ? [id] : [] },
      wholeBoard: place !== null,
    };
  },
});

export const retireWorkstation = command({
  name: "retire-workstation",
  summary: "Retire a workstation: its parts go to a store, and its record stays.",
  schema: retireWorkstationRequest,
  reply: retireWorkstationReply,
  locks: ({ workstationId }) => ({ workstations: [workstationId] }),
  load: (tx, _input, { begun }) => loadSetUp(tx, begun.scope),
  decide: (known, { workstationId, partsTo }) => decideRetireWorkstation(known, workstationId, partsTo),
  apply: async (tx, { id, tag, parts, roomName }, { partsTo }, context) => {
    await putAway(tx, context.begun.scope.facilityId, id, partsTo, context.now);
    return {
      reply: { workstationId: id },
      note: {
        text: `Retired the workstation ${tag}${roomName === null ? "" : ` from ${roomName}`}`,
        details: parts.map(({ name, position }) => `To the store: ${name} from ${position}`),
        data: { workstationId: id, partsTo },
      },
      wholeBoard: true,
    };
  },
});
