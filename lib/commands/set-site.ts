import { command } from "@/lib/commands/command";
import { readyMadeProcedures } from "@/lib/domain/ready-made-procedures/all";
import { decideSite } from "@/lib/domain/site/decide";
import { setSiteReply, setSiteRequest } from "@/lib/schemas/site";
import { insertProcedure } from "@/lib/storage/procedures";
import { loadSite, procedureVersion, putSite } from "@/lib/storage/site";

/** The facility's name, clock, scheme, pressure unit and words. Everything is shown and judged by them, so everything is judged again. */
export const setSite = command({
  name: "set-site",
  summary: "Change the facility's name, time zone, scheme, pressure unit and words.",
  schema: setSiteRequest,
  reply: setSiteReply,
  locks: () => ({ settings: true, everything: true }),
  load: (tx, _input, { begun }) => loadSite(tx, begun.scope),
  decide: decideSite,
  apply: async (tx, { schemeChanged }, input, context) => {
    const { begun, now, newId } = context;
    const { facilityId } = begun.scope;
    await putSite(tx, facilityId, input);
    if (schemeChanged)
      for (const procedure of readyMadeProcedures(input.scheme)) {
        const version = (await procedureVersion(tx, facilityId, procedure.kind)) + 1;
        await insertProcedure(tx, facilityId, newId(), { ...procedure, version }, now);
      }
    const { words: _, ...facility } = input;
    return {
      reply: { facilityId },
      note: {
        text: `Changed the facility: ${input.name}, ${input.timeZone}, ${input.scheme}, ${input.pressureUnit}`,
        details: [`Words: ${Object.values(input.words).join(", ")}`],
        data: { ...input, was: begun.facility },
      },
      frame: { facility: { ...begun.facility, ...facility } },
      wholeBoard: true,
    };
  },
});
