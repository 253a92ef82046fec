import { describe, expect, it } from "vitest";
import {
  FUNCTION_POINTS,
  type FunctionCategory,
  MAINTENANCE_POINTS,
  type MaintenanceCategory,
  missionScore,
  RISK_POINTS,
  type RiskCategory,
  riskScore,
} from "@/lib/calculations/risk-score";
import { answerOf, refusalOf } from "@/tests/support/calculated";

describe("the inclusion score", () => {
  it("lies from 4 to 20 and is included from 12 on, for every combination", () => {
    for (const one of Object.keys(FUNCTION_POINTS) as FunctionCategory[]) {
      for (const risk of Object.keys(RISK_POINTS) as RiskCategory[]) {
        for (const maintenance of Object.keys(MAINTENANCE_POINTS) as MaintenanceCategory[]) {
          const { score, include } = answerOf(riskScore({ function: one, risk, maintenance }));
          expect(score).toBe(FUNCTION_POINTS[one] + RISK_POINTS[risk] + MAINTENANCE_POINTS[maintenance]);
          expect(include).toBe(score >= 12);
          expect(score).toBeGreaterThanOrEqual(4);
          expect(score).toBeLessThanOrEqual(20);
        }
      }
    }
  });

  it("follows the site's own threshold", () => {
    expect(answerOf(riskScore({ function: 6, risk: 3, maintenance: 3 }, 13)).include).toBe(false);
  });

  it("tells no partial sum: a missing component is named", () => {
    const answer = riskScore({ function: 10, maintenance: 5 });
    expect(refusalOf(answer)).toBe("incomplete");
    expect("message" in answer && answer.message).toContain("not given: risk");
    expect(refusalOf(riskScore({}))).toBe("incomplete");
    expect(refusalOf(missionScore({ risk: 5, maintenance: 5 }))).toBe("incomplete");
  });

  it.each([
    { function: 11, risk: 1, maintenance: 1 },
    { function: 1, risk: 1, maintenance: 1 },
    { function: 2.5, risk: 1, maintenance: 1 },
    { function: 2, risk: 0, maintenance: 1 },
    { function: 2, risk: 6, maintenance: 1 },
    { function: 2, risk: 1, maintenance: 6 },
  ])("refuses points that no category has: $function, $risk, $maintenance", (given) => {
    expect(refusalOf(riskScore(given))).toBe("out-of-range");
  });
});
