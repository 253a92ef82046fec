import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AGENTS, type Agent, saturatedPercent } from "@/lib/calculations/vaporizer-agents";
import { vaporizerHoursLeft, vaporizerMinutesLeft } from "@/lib/calculations/vaporizer-refill";
import { VAPORIZER_METHODS, type VaporizerMethod, vaporizerUse } from "@/lib/calculations/vaporizer-use";
import { litrePerMinute, millilitre, millilitrePerHour, percent } from "@/lib/units/measure";
import { allFinite, answerOf, computed, refusalOf } from "@/tests/support/calculated";

const use = (agent: Agent, method: VaporizerMethod, dial: number, flow: number) =>
  vaporizerUse({ agent, method, concentration: percent(dial), freshGas: litrePerMinute(flow) });

const anyAgent = fc.constantFrom(...AGENTS);
const anyMethod = fc.constantFrom(...VAPORIZER_METHODS);
const finite = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("liquid use of a vaporizer", () => {
  it.each(VAPORIZER_METHODS)("is nothing at 0 %% and at no flow, by %s", (method) => {
    expect(answerOf(use("sevoflurane", method, 0, 2))).toBe(0);
    expect(answerOf(use("sevoflurane", method, 2, 0))).toBe(0);
  });

  it("doubles with the flow", () => {
    fc.assert(
      fc.property(anyAgent, anyMethod, finite(0, 8), finite(0, 50), (agent, method, dial, flow) => {
        const once = answerOf(use(agent, method, dial, flow));
        expect(answerOf(use(agent, method, dial, 2 * flow))).toBeCloseTo(2 * once, 9);
      }),
    );
  });

  it("is more on carrier flow than on total flow, for the vapour adds to the carrier", () => {
    fc.assert(
      fc.property(anyAgent, finite(0.1, 18), finite(0.1, 20), (agent, dial, flow) => {
        const total = answerOf(use(agent, "total-flow", dial, flow));
        const carrier = answerOf(use(agent, "carrier-flow", dial, flow));
        expect(carrier * (1 - dial / 100)).toBeCloseTo(total, 9);
      }),
    );
  });

  it("lies within the range it tells, and the range of the rule of thumb reaches the exact formula", () => {
    fc.assert(
      fc.property(anyAgent, anyMethod, finite(0, 8), finite(0, 20), (agent, method, dial, flow) => {
        const { value, uncertainty } = computed(use(agent, method, dial, flow));
        const exact = answerOf(use(agent, "total-flow", dial, flow));
        for (const inside of method === "rule-of-thumb" ? [value, exact] : [value]) {
          expect(uncertainty?.low).toBeLessThanOrEqual(inside);
          expect(uncertainty?.high).toBeGreaterThanOrEqual(inside);
        }
      }),
    );
  });

  it("answers finite numbers or a reason, whatever it is given", () => {
    fc.assert(
      fc.property(
        anyAgent,
        anyMethod,
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        (agent, method, dial, flow) => {
          const answer = use(agent, method, dial, flow);
          if (answer.ok) expect(allFinite(answer)).toBe(true);
          else expect(refusalOf(answer)).toMatch(/^(out-of-range|above-saturation)$/);
        },
      ),
    );
  });

  it.each([
    { dial: -0.1, flow: 1, why: "out-of-range" },
    { dial: 100.1, flow: 1, why: "out-of-range" },
    { dial: 100, flow: 1, why: "above-saturation" },
    { dial: 2, flow: -1, why: "out-of-range" },
    { dial: 2, flow: 2000, why: "out-of-range" },
  ])("refuses $dial % at $flow L/min: $why", ({ dial, flow, why }) => {
    expect(refusalOf(use("isoflurane", "carrier-flow", dial, flow))).toBe(why);
  });

  it("takes what a dial can give and refuses what saturated vapour cannot", () => {
    const highest = { sevoflurane: 8, desflurane: 18, isoflurane: 5, halothane: 5, enflurane: 7 };
    for (const agent of AGENTS) {
      expect(saturatedPercent(agent)).toBeGreaterThan(highest[agent]);
      expect(use(agent, "total-flow", highest[agent], 1).ok).toBe(true);
    }
    expect(refusalOf(use("isoflurane", "total-flow", 33, 1))).toBe("above-saturation");
  });
});

describe("time until a vaporizer must be refilled", () => {
  const fill = (liquid: number, mark: number, mLPerHour: number) => ({
    liquid: millilitre(liquid),
    mark: millilitre(mark),
    use: millilitrePerHour(mLPerHour),
    useRange: { low: 0.85 * mLPerHour, high: 1.15 * mLPerHour, because: "the dial" },
  });

  it("is the liquid above the mark over the use", () => {
    expect(answerOf(vaporizerHoursLeft(fill(125, 25, 10)))).toBe(10);
    expect(answerOf(vaporizerMinutesLeft(fill(125, 25, 10)))).toBe(600);
  });

  it("is longest at the lowest use and shortest at the highest", () => {
    const { uncertainty } = computed(vaporizerMinutesLeft(fill(100, 0, 10)));
    expect(uncertainty?.low).toBeCloseTo(600 / 1.15, 9);
    expect(uncertainty?.high).toBeCloseTo(600 / 0.85, 9);
  });

  it("is 0 at the mark and below it, never negative", () => {
    expect(answerOf(vaporizerHoursLeft(fill(25, 25, 10)))).toBe(0);
    expect(answerOf(vaporizerHoursLeft(fill(5, 25, 10)))).toBe(0);
  });

  it("refuses where nothing is used, and liquid that cannot be", () => {
    expect(refusalOf(vaporizerHoursLeft(fill(100, 0, 0)))).toBe("no-consumption");
    expect(refusalOf(vaporizerMinutesLeft(fill(-1, 0, 10)))).toBe("out-of-range");
  });
});
