import { type LitrePerMinute, type MillilitrePerHour, millilitrePerHour, type Percent } from "@/lib/units/measure";
import { type Calculated, type Refused, refused, type Uncertainty } from "./calculated";
import { AGENT_PROPERTIES, type Agent, saturatedPercent } from "./vaporizer-agents";
import { outOfRange } from "./within";

export const VAPORIZER_METHODS = ["total-flow", "carrier-flow", "rule-of-thumb"] as const;
export type VaporizerMethod = (typeof VAPORIZER_METHODS)[number];

export interface VaporizerSetting {
  readonly agent: Agent;
  readonly concentration: Percent;
  readonly freshGas: LitrePerMinute;
  readonly method: VaporizerMethod;
}

export type VaporizerRefusal = "out-of-range" | "above-saturation";

/** Oxygen flush gives 35 to 75 L/min (ISO 80601-2-13, from memory); a flow above this is no setting of a workstation. */
const HIGHEST_FLOW_L_PER_MIN = 100;
/** Output within 15 % of the dial: the limit of published field audits, Nielsen et al., Br J Anaesth 1993;71:453. */
const DIAL_TOLERANCE = 0.15;

const METHOD_NAMES: Readonly<Record<VaporizerMethod, string>> = {
  "total-flow": "percent of the total fresh gas flow",
  "carrier-flow": "percent of the flow before the vaporizer",
  "rule-of-thumb": "rule of thumb",
};

const SOURCES: Readonly<Record<VaporizerMethod, string>> = {
  "total-flow":
    "Vapour per millilitre of liquid: Biro 2014, doi 10.1111/aas.12374; enflurane computed from density and molar mass",
  "carrier-flow":
    "Vapour per millilitre of liquid: Biro 2014, doi 10.1111/aas.12374; enflurane computed from density and molar mass",
  "rule-of-thumb": "Dhulkhed 2013, PMC3821262: 3 x fresh gas (L/min) x percent, 3.3 for sevoflurane",
};

/**
 * Liquid agent that a vaporizer uses.
 *
 *   total-flow      mL/h = F x c/100 x 60 / V          F: fresh gas in mL/min with the vapour in it
 *   carrier-flow    mL/h = F x c/(100 - c) x 60 / V    F: fresh gas in mL/min before the vaporizer
 *   rule-of-thumb   mL/h = 3 x L/min x c               3.3 for sevoflurane
 *
 * in        agent, dial concentration (vol %), fresh gas flow (L/min); V is the vapour from one millilitre of liquid (mL, 20 C, 1 atm)
 * out       millilitres of liquid per hour; 0 at no flow or at 0 %
 * validity  one atmosphere and 20 C; a steady dial and flow
 * error     a vaporizer may give 15 % more or less than its dial; V is known to about 1 %; vapour is not an ideal gas, which adds 0.9
 *           to 3.4 % of vapour; the rule of thumb lies up to 15 % from the exact formula (halothane)
 * refuses   a concentration below 0 or above what saturated vapour at 20 C can be, a flow below 0 or above 100 L/min
 * not for   dosing, and not for the uptake of a patient; a vaporizer at altitude
 * source    Biro 2014; Dhulkhed 2013; the formula is the volume balance of an ideal gas
 */
export function vaporizerUse(setting: VaporizerSetting): Calculated<MillilitrePerHour, VaporizerRefusal> {
  const wrong = unusable(setting);
  if (wrong) return wrong;
  return {
    ok: true,
    value: millilitrePerHour(use(setting)),
    method: METHOD_NAMES[setting.method],
    uncertainty: dialTolerance(setting),
    source: SOURCES[setting.method],
  };
}

function use({ agent, concentration, freshGas, method }: VaporizerSetting): number {
  const { vapourPerLiquid, ruleOfThumb } = AGENT_PROPERTIES[agent];
  if (method === "rule-of-thumb") return ruleOfThumb * freshGas * concentration;
  const share = method === "total-flow" ? concentration / 100 : concentration / (100 - concentration);
  return (freshGas * 1_000 * share * 60) / vapourPerLiquid;
}

function unusable({ agent, concentration, freshGas }: VaporizerSetting): Refused<VaporizerRefusal> | null {
  const outside = outOfRange([
    { name: "The concentration", value: concentration, unit: "%", from: 0, to: 100 },
    { name: "The fresh gas flow", value: freshGas, unit: "L/min", from: 0, to: HIGHEST_FLOW_L_PER_MIN },
  ]);
  if (outside) return outside;
  const most = saturatedPercent(agent);
  if (concentration <= most) return null;
  const limit = `saturated ${agent} at 20 C is ${most.toFixed(1)} %`;
  return refused(
    "above-saturation",
    `A concentration of ${concentration} % cannot be: ${limit}. Check the dial and the agent.`,
  );
}

function dialTolerance(setting: VaporizerSetting): Uncertainty {
  const chosen = use(setting);
  const exact = use({ ...setting, method: "total-flow" });
  const rule = setting.method === "rule-of-thumb";
  return {
    low: (1 - DIAL_TOLERANCE) * (rule ? Math.min(chosen, exact) : chosen),
    high: (1 + DIAL_TOLERANCE) * (rule ? Math.max(chosen, exact) : chosen),
    because: rule
      ? "the vaporizer may give 15 % more or less than its dial, and the rule differs from the exact formula"
      : "the vaporizer may give 15 % more or less than its dial",
  };
}
