import { command } from "@/lib/commands/command";
import { decideModel } from "@/lib/domain/model/decide";
import { refused } from "@/lib/domain/outcome";
import { setModelReply, setModelRequest } from "@/lib/schemas/places";
import { loadSetUp, lockSetUp } from "@/lib/storage/set-up";
import { modelsChangedElsewhere } from "@/lib/storage/set-up-elsewhere";
import { putModel } from "@/lib/storage/set-up-write";

/** A model says what its workstations are asked and judged by, so a change is judged in every room, here and in sister facilities. */
export const setModel = command({
  name: "set-model",
  summary: "Add or change a model: drive, leak test, sensor, mounts, yokes, what its self-test covers.",
  schema: setModelRequest,
  reply: setModelReply,
  locks: ({ modelId }) => (modelId === null ? {} : { everything: true }),
  load: async (tx, _input, { begun }) => {
    await lockSetUp(tx, begun.scope.facilityId);
    return loadSetUp(tx, begun.scope);
  },
  decide: decideModel,
  apply: async (tx, { was, document, maker }, input, context) => {
    const modelId = input.modelId ?? context.newId();
    const model = { id: modelId, name: input.name, maker, document };
    if (!(await putModel(tx, context.begun.scope, model, was === null)))
      return refused(
        "taken",
        `A model named ${input.name} was added elsewhere in the meantime. Choose another name.`,
        "name",
      );
    if (was !== null) await modelsChangedElsewhere(tx, context.begun.scope, [modelId]);
    return {
      reply: { modelId },
      note: {
        text: `${was === null ? "Added" : "Changed"} the model ${input.name}`,
        data: { modelId, maker, document, was: was?.document ?? null },
      },
    };
  },
});
