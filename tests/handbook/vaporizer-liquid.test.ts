import { describe, expect, it } from "vitest";
import { AGENT_PROPERTIES, AGENTS, type Agent } from "@/lib/calculations/vaporizer-agents";
import { type VaporizerMethod, vaporizerUse } from "@/lib/calculations/vaporizer-use";
import { litrePerMinute, percent } from "@/lib/units/measure";
import { answerOf } from "@/tests/support/calculated";

interface Published {
  readonly source: string;
  readonly agent: Agent;
  readonly method: VaporizerMethod;
  readonly dial: number;
  readonly flow: number;
  readonly mLPerHour: number;
  /** What the source's printed digits support. */
  readonly within: number;
}

const DHULKHED = "Dhulkhed 2013, PMC3821262";
const BALANCE = "volume balance with the vapour constants of Biro 2014";
const USES: readonly Published[] = [
  { source: DHULKHED, agent: "isoflurane", method: "rule-of-thumb", dial: 2, flow: 1, mLPerHour: 6, within: 1e-9 },
  {
    source: "public worked example page (secondary)",
    agent: "isoflurane",
    method: "rule-of-thumb",
    dial: 2,
    flow: 6,
    mLPerHour: 36,
    within: 1e-9,
  },
  {
    source: `${DHULKHED}, 3.3 for sevoflurane`,
    agent: "sevoflurane",
    method: "rule-of-thumb",
    dial: 2,
    flow: 2,
    mLPerHour: 13.2,
    within: 1e-9,
  },
  { source: BALANCE, agent: "isoflurane", method: "rule-of-thumb", dial: 1.2, flow: 2, mLPerHour: 7.2, within: 0.005 },
  { source: BALANCE, agent: "isoflurane", method: "total-flow", dial: 1.2, flow: 2, mLPerHour: 7.38, within: 0.01 },
  { source: BALANCE, agent: "isoflurane", method: "carrier-flow", dial: 1.2, flow: 2, mLPerHour: 7.47, within: 0.01 },
  { source: BALANCE, agent: "halothane", method: "rule-of-thumb", dial: 1, flow: 2, mLPerHour: 6, within: 1e-9 },
  { source: BALANCE, agent: "halothane", method: "total-flow", dial: 1, flow: 2, mLPerHour: 5.24, within: 0.01 },
];

describe("published worked examples of liquid use", () => {
  it.each(USES)("$agent $dial % at $flow L/min by $method is $mLPerHour mL/h ($source)", (row) => {
    const { agent, method, dial, flow } = row;
    const use = answerOf(vaporizerUse({ agent, method, concentration: percent(dial), freshGas: litrePerMinute(flow) }));
    expect(Math.abs(use - row.mLPerHour)).toBeLessThanOrEqual(row.within);
  });
});

/** Molar mass (g/mol) and density at 20 C (g/mL): tables of agent properties; densities except sevoflurane from memory. */
const DENSITIES: Readonly<Record<Agent, readonly [mass: number, density: number]>> = {
  sevoflurane: [200.05, 1.52],
  isoflurane: [184.49, 1.496],
  desflurane: [168.04, 1.465],
  halothane: [197.38, 1.868],
  enflurane: [184.49, 1.517],
};

describe("vapour from a millilitre of liquid", () => {
  it.each(AGENTS)("%s agrees with its density and molar mass within 0.7 %", (agent) => {
    const [mass, density] = DENSITIES[agent];
    const idealGas = (density / mass) * 22_414 * (293.15 / 273.15);
    expect(Math.abs(AGENT_PROPERTIES[agent].vapourPerLiquid / idealGas - 1)).toBeLessThan(0.007);
  });

  it("is what Biro 2014 states", () => {
    const stated = { halothane: 229, isoflurane: 195, sevoflurane: 184, desflurane: 210 } as const;
    for (const [agent, millilitres] of Object.entries(stated)) {
      expect(AGENT_PROPERTIES[agent as Agent].vapourPerLiquid).toBe(millilitres);
    }
  });
});
