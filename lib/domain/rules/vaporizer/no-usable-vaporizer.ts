import type { Rule } from "@/lib/domain/rule";
import { about, answered, chosen, withWorkstation } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import { lostVaporizers } from "@/lib/domain/rules/lost-vaporizers";

/**
 * With the last vaporizer lost only anesthesia by vein is left. A rule of its own, so that what was allowed for one lost agent
 * is not taken for this.
 */
export const noUsableVaporizer: Rule = {
  id: "no-usable-vaporizer",
  what: "At least one vaporizer can be used; without any, intravenous only",
  severity: "limits",
  citation: "common practice, no source",
  items: [],
  settings: {},
  allowedBy: ["charge-provider"],
  judge: (context) => {
    const { workstation } = context.evidence;
    if (workstation === null) return [];
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
