import type { Rule } from "@/lib/domain/rule";
import { about, answered, chosen, withRoom, withWorkstation } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import { lostVaporizers } from "@/lib/domain/rules/lost-vaporizers";

/**
 * With the last vaporizer lost only anesthesia by vein is left. A rule of its own, so that what was allowed for one lost agent
 * is not taken for this.
 */
export const noUsableVaporizer: Rule = {
  id: "no-usable-vaporizer",
  inBrief: "no vaporizer",
  what: "At least one vaporizer can be used; without any, intravenous only",
  severity: "limits",
  citation: "common practice, no source",
  items: [],
  settings: {},
  allowedBy: ["charge-provider"],
  use: {
    first: "Shut and mark what is mounted.",
    differently: "Intravenous anesthesia only.",
    longest: "3-days",
  },
  judge: (context) => {
    const { room, workstation } = context.evidence;
    // A machine prepared vapor-free carries none on purpose; whether it is prepared is another rule's word.
    if (workstation === null || room?.list?.needs.includes("vapor-free")) return [];
    const fitted = workstation.fitted.vaporizers.length;
    if (fitted === 0 ? workstation.model.mounts.length === 0 : lostVaporizers(context).length < fitted) return [];
    const text =
      fitted === 0 ? "No vaporizer fitted: intravenous only" : "No usable vaporizer is left: intravenous only";
    return [{ subject: workstationSubject(context), text, takesAway: ["intravenous-only"] }];
  },
  examples: [
    {
      name: "one of two empty",
      given: (ready) =>
        answered(ready, "vaporizer-fill", chosen("empty"), about(ready.workstation?.fitted.vaporizers[0]?.id ?? "")),
      expect: "holds",
    },
    { name: "every one empty", given: (ready) => answered(ready, "vaporizer-fill", chosen("empty")), expect: "limits" },
    {
      name: "none fitted",
      given: (ready) => withWorkstation(ready, ({ fitted }) => ({ fitted: { ...fitted, vaporizers: [] } })),
      expect: "limits",
    },
    {
      name: "none fitted, for a list that needs it so",
      given: (ready) =>
        withWorkstation(
          withRoom(ready, { list: ready.room?.list ? { ...ready.room.list, needs: ["vapor-free"] } : null }),
          ({ fitted }) => ({
            fitted: { ...fitted, vaporizers: [] },
          }),
        ),
      expect: "holds",
    },
    {
      name: "none fitted, on a machine without mounts",
      given: (ready) =>
        withWorkstation(ready, ({ fitted, model }) => ({
          model: { ...model, mounts: [] },
          fitted: { ...fitted, vaporizers: [] },
        })),
      expect: "holds",
    },
  ],
};
