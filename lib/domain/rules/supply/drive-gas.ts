import type { Evidence } from "@/lib/domain/evidence";
import type { FindingDraft, Rule, RuleContext } from "@/lib/domain/rule";
import { about, answered, reading, withRoom, withWorkstation } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import { GAS_NAMES, lowerFirst } from "@/lib/domain/wording";

/**
 * A ventilator driven by a gas stops with that gas. Oxygen lost stops the workstation by its own rules; air lost leaves ventilation
 * by hand. An air cylinder on its yoke drives a ventilator for minutes and is no replacement for the pipeline, so it counts only
 * where air is not piped at all.
 */
export const driveGas: Rule = {
  id: "drive-gas",
  inBrief: "drive gas",
  what: "The gas that drives the ventilator is there; without it no mechanical ventilation",
  severity: "limits",
  citation: "common practice, no source; drive gas used by ventilators in Klemenzson and Perouansky 2004 (abstract)",
  items: [],
  settings: {},
  allowedBy: ["charge-provider"],
  use: {
    first: "Try the bag and the self-inflating bag; have a second person for the case.",
    differently: "Ventilate by hand; no long case and no paralysis without a ventilator at hand.",
    longest: "this-list",
  },
  judge: (context) => {
    const { room, workstation } = context.evidence;
    const gas = workstation?.model.driveGas;
    if (!workstation || !room || gas === undefined || gas === "none" || gas === "oxygen") return [];
    if (room.piped.includes(gas)) return pipelineLost(context, gas);
    if (workstation.fitted.cylinders.some((cylinder) => cylinder.gas === gas)) return [];
    const text = `No ${lowerFirst(GAS_NAMES[gas])} to drive the ventilator: no mechanical ventilation`;
    return [{ subject: workstationSubject(context), text, takesAway: ["no-mechanical-ventilation"] }];
  },
  examples: [
    { name: "driven by air, its pipeline at 45 psi", given: (ready) => airAt(ready, 45), expect: "holds" },
    { name: "driven by air, its pipeline at 44.9 psi", given: (ready) => airAt(ready, 44.9), expect: "limits" },
    {
      name: "driven by oxygen, the air pipeline at 44.9 psi",
      given: (ready) => answered(ready, "pipeline-pressure", reading(44.9, "psi"), about("air")),
      expect: "holds",
    },
    {
      name: "driven by air where none is piped and none is on a yoke",
      given: (ready) => withRoom(drivenByAir(ready), { piped: ["oxygen", "nitrous-oxide"] }),
      expect: "limits",
    },
  ],
};

function pipelineLost(context: RuleContext, gas: "air" | "nitrous-oxide"): FindingDraft[] {
  const standing = context.standing("pipeline-pressure", { kind: "pipeline", id: gas });
  if (standing.state !== "failing") return [];
  return [
    {
      subject: workstationSubject(context),
      text: `${GAS_NAMES[gas]} that drives the ventilator is lost: no mechanical ventilation`,
      items: ["pipeline-pressure"],
      takesAway: ["no-mechanical-ventilation"],
      supplyFailure: true,
      since: standing.observation.observedAt,
    },
  ];
}

const drivenByAir = (ready: Evidence): Evidence =>
  withWorkstation(ready, ({ model }) => ({ model: { ...model, driveGas: "air" } }));

const airAt = (ready: Evidence, psi: number): Evidence =>
  answered(drivenByAir(ready), "pipeline-pressure", reading(psi, "psi"), about("air"));
