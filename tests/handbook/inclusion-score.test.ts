import { describe, expect, it } from "vitest";
import {
  FUNCTION_POINTS,
  MAINTENANCE_POINTS,
  missionScore,
  RISK_POINTS,
  type RiskComponents,
  riskScore,
} from "@/lib/calculations/risk-score";
import { answerOf } from "@/tests/support/calculated";

const WHO = "WHO 2011, appendix A, after Fennigkoh and Smith 1989";
const SCORES: readonly {
  readonly source: string;
  readonly given: RiskComponents;
  readonly score: number;
  readonly include: boolean;
}[] = [
  {
    source: `${WHO}: workstation with ventilator`,
    given: { function: 10, risk: 5, maintenance: 5 },
    score: 20,
    include: true,
  },
  {
    source: `${WHO}, by category`,
    given: { function: "life-support", risk: "patient-death", maintenance: "extensive" },
    score: 20,
    include: true,
  },
  {
    source: "suction regulator, common practice",
    given: { function: 9, risk: 4, maintenance: 2 },
    score: 15,
    include: true,
  },
  { source: `${WHO}: threshold 12`, given: { function: 6, risk: 3, maintenance: 3 }, score: 12, include: true },
  { source: `${WHO}: below the threshold`, given: { function: 6, risk: 3, maintenance: 2 }, score: 11, include: false },
  {
    source: `${WHO}: the least its own points give, though it says 3`,
    given: { function: "miscellaneous-patient-related", risk: "no-significant-risk", maintenance: "minimal" },
    score: 4,
    include: false,
  },
];

describe("published inclusion scores", () => {
  it.each(SCORES)("$score, include $include ($source)", ({ given, score, include }) => {
    expect(answerOf(riskScore(given))).toEqual({ score, include });
  });

  // The points by category, from memory of the same appendix.
  it("gives each category its points", () => {
    expect(Object.values(FUNCTION_POINTS)).toEqual([10, 9, 8, 7, 6, 5, 4, 3, 2]);
    expect(RISK_POINTS).toEqual({
      "patient-death": 5,
      "patient-or-operator-injury": 4,
      "inappropriate-therapy-or-misdiagnosis": 3,
      "equipment-damage": 2,
      "no-significant-risk": 1,
    });
    expect(MAINTENANCE_POINTS).toEqual({
      extensive: 5,
      "above-average": 4,
      average: 3,
      "below-average": 2,
      minimal: 1,
    });
  });

  // Wang and Levenson (from memory): mission-critical + 2 x risk + 2 x maintenance, at most 30.
  it("has 30 as the most of the score by mission", () => {
    expect(answerOf(missionScore({ mission: 10, risk: 5, maintenance: 5 }))).toBe(30);
    expect(answerOf(missionScore({ mission: 10, risk: "patient-death", maintenance: "average" }))).toBe(26);
  });
});
