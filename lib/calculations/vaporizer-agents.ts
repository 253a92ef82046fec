export const AGENTS = ["sevoflurane", "desflurane", "isoflurane", "halothane", "enflurane"] as const;
export type Agent = (typeof AGENTS)[number];

export interface AgentProperties {
  /** Millilitres of vapour at 20 C and one atmosphere from one millilitre of liquid. */
  readonly vapourPerLiquid: number;
  /** Saturated vapour pressure at 20 C, mmHg; the highest of the published values where they differ. */
  readonly saturationMmHg: number;
  /** What the simple rule multiplies fresh gas (L/min) and percent by, to give mL/h. */
  readonly ruleOfThumb: number;
}

/**
 * vapourPerLiquid   Biro, Acta Anaesthesiol Scand 2014, doi 10.1111/aas.12374. Enflurane is not in that paper: 197.8 is computed from
 *                   1.517 g/mL and 184.49 g/mol (both from memory) as an ideal gas at 20 C, density / molar mass x 24,055 mL/mol.
 *                   The same computation gives sevoflurane 182.8, isoflurane 195.1, desflurane 209.7, halothane 227.7:
 *                   within 0.7 % of the published values
 * saturationMmHg    published tables of agent properties: sevoflurane 157 to 170, isoflurane 238 to 250, desflurane 669,
 *                   halothane 243 to 244, enflurane 172
 * ruleOfThumb       Dhulkhed, 2013, PMC3821262: 3 x fresh gas x percent, 3.3 for sevoflurane
 */
export const AGENT_PROPERTIES: Readonly<Record<Agent, AgentProperties>> = {
  sevoflurane: { vapourPerLiquid: 184, saturationMmHg: 170, ruleOfThumb: 3.3 },
  desflurane: { vapourPerLiquid: 210, saturationMmHg: 669, ruleOfThumb: 3 },
  isoflurane: { vapourPerLiquid: 195, saturationMmHg: 250, ruleOfThumb: 3 },
  halothane: { vapourPerLiquid: 229, saturationMmHg: 244, ruleOfThumb: 3 },
  enflurane: { vapourPerLiquid: 197.8, saturationMmHg: 172, ruleOfThumb: 3 },
};

const ATMOSPHERE_MMHG = 760;

/** Percent of vapour in saturated gas at 20 C and one atmosphere: what a vaporizer at room temperature cannot exceed. */
export function saturatedPercent(agent: Agent): number {
  return (100 * AGENT_PROPERTIES[agent].saturationMmHg) / ATMOSPHERE_MMHG;
}
