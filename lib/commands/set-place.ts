import { command } from "@/lib/commands/command";
import { decidePlace } from "@/lib/domain/room/decide";
import { setPlaceReply, setPlaceRequest } from "@/lib/schemas/places";
import { loadSetUp, lockSetUp } from "@/lib/storage/set-up";
import { putPlace } from "@/lib/storage/set-up-write";

const WORDS = { suite: "the suite", zone: "the pipeline zone", store: "the store" } as const;

/** A suite, a pipeline zone or a store. Rooms say the names of the first two, so a new name is told to every board. */
export const setPlace = command({
  name: "set-place",
  summary: "Add or change a suite, a pipeline zone or a store.",
  schema: setPlaceRequest,
  reply: setPlaceReply,
  locks: ({ placeId }) => (placeId === null ? {} : { everything: true }),
  load: async (tx, _input, { begun }) => {
    await lockSetUp(tx, begun.scope.facilityId);
    return loadSetUp(tx, begun.scope);
  },
  decide: decidePlace,
  apply: async (tx, { was }, input, context) => {
    const placeId = input.placeId ?? context.newId();
    await putPlace(tx, context.begun.scope, placeId, input);
    const what = WORDS[input.kind];
    const renamed = was !== null && was !== input.name ? ` (was ${was})` : "";
    return {
      reply: { placeId },
      note: {
        text: `${was === null ? "Added" : "Changed"} ${what} ${input.name}${renamed}`,
        data: { ...input, placeId },
      },
      wholeBoard: was !== null,
    };
  },
});
