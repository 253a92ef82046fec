import { type Calculated, type Refused, refused } from "./calculated";
import { notWhole } from "./within";

/**
 * Points of the inclusion score for medical equipment.
 * Source: category names in WHO, Medical equipment maintenance programme overview, 2011, appendix A, after Fennigkoh and Smith 1989
 * (secondary copy); the points from memory of the same.
 */
export const FUNCTION_POINTS = {
  "life-support": 10,
  "therapeutic-surgical-intensive-care": 9,
  "therapeutic-physical-therapy": 8,
  "diagnostic-surgical-intensive-care-monitoring": 7,
  "diagnostic-additional-physiological": 6,
  "analytical-laboratory": 5,
  "laboratory-accessories": 4,
  computers: 3,
  "miscellaneous-patient-related": 2,
} as const;

export const RISK_POINTS = {
  "patient-death": 5,
  "patient-or-operator-injury": 4,
  "inappropriate-therapy-or-misdiagnosis": 3,
  "equipment-damage": 2,
  "no-significant-risk": 1,
} as const;

export const MAINTENANCE_POINTS = {
  extensive: 5,
  "above-average": 4,
  average: 3,
  "below-average": 2,
  minimal: 1,
} as const;

export type FunctionCategory = keyof typeof FUNCTION_POINTS;
export type RiskCategory = keyof typeof RISK_POINTS;
export type MaintenanceCategory = keyof typeof MAINTENANCE_POINTS;

/** Each component in points or by the name of its category; absent when nobody has assessed it. */
export interface RiskComponents {
  readonly function?: number | FunctionCategory;
  readonly risk?: number | RiskCategory;
  readonly maintenance?: number | MaintenanceCategory;
}

export interface RiskScore {
  readonly score: number;
  readonly include: boolean;
}

export type RiskRefusal = "incomplete" | "out-of-range";

export const INCLUDE_FROM = 12;

/**
 * Equipment management number: is the device in the planned-maintenance program?
 *
 *   score = function + risk + maintenance          in the program at 12 or more
 *
 * in        function 2 to 10, risk 1 to 5, maintenance 1 to 5, as points or by category
 * out       the score, 4 to 20, and whether it reaches the threshold
 * validity  a score for choosing what to plan, not a measure of risk. The appendix says 3 to 20, but its own points give 4 at least
 * error     exact; the judgement lies in the categories
 * refuses   a missing component ("incomplete"): a partial sum would look like a low risk; points that no category has
 * not for   leaving a device out against its maker's interval where law or accreditation holds to that
 * source    Fennigkoh and Smith 1989 in WHO 2011, appendix A
 */
export function riskScore(components: RiskComponents, includeFrom = INCLUDE_FROM): Calculated<RiskScore, RiskRefusal> {
  const points = [
    { name: "function", points: pointsOf(components.function, FUNCTION_POINTS), from: 2, to: 10 },
    { name: "risk", points: pointsOf(components.risk, RISK_POINTS), from: 1, to: 5 },
    { name: "maintenance", points: pointsOf(components.maintenance, MAINTENANCE_POINTS), from: 1, to: 5 },
  ];
  const wrong = unusable(points);
  if (wrong) return wrong;
  const score = points.reduce((sum, { points: own }) => sum + (own ?? 0), 0);
  return {
    ok: true,
    value: { score, include: score >= includeFrom },
    method: "function + risk + maintenance",
    uncertainty: null,
    source:
      "Fennigkoh and Smith 1989 in WHO 2011, appendix A (categories seen in a secondary copy, points from memory)",
  };
}

/**
 * The score in which the mission replaces the function: mission-critical + 2 x risk + 2 x maintenance, at most 30.
 *
 * in        mission-critical 1 to 10, risk and maintenance 1 to 5 (points or category)
 * out       the score, 5 to 30. The adjustment by utilization is left out
 * refuses   a missing component, points outside their range
 * source    Wang and Levenson (from memory)
 */
export function missionScore(
  components: Omit<RiskComponents, "function"> & { readonly mission?: number },
): Calculated<number, RiskRefusal> {
  const risk = pointsOf(components.risk, RISK_POINTS);
  const maintenance = pointsOf(components.maintenance, MAINTENANCE_POINTS);
  const wrong = unusable([
    { name: "mission", points: components.mission, from: 1, to: 10 },
    { name: "risk", points: risk, from: 1, to: 5 },
    { name: "maintenance", points: maintenance, from: 1, to: 5 },
  ]);
  if (wrong) return wrong;
  return {
    ok: true,
    value: (components.mission ?? 0) + 2 * (risk ?? 0) + 2 * (maintenance ?? 0),
    method: "mission + 2 x risk + 2 x maintenance",
    uncertainty: null,
    source: "Wang and Levenson (from memory)",
  };
}

function pointsOf<Category extends string>(
  given: number | Category | undefined,
  table: Readonly<Record<Category, number>>,
): number | undefined {
  return typeof given === "string" ? table[given] : given;
}

interface Component {
  readonly name: string;
  readonly points: number | undefined;
  readonly from: number;
  readonly to: number;
}

function unusable(components: readonly Component[]): Refused<RiskRefusal> | null {
  const missing = components.filter(({ points }) => points === undefined).map(({ name }) => name);
  if (missing.length > 0) {
    return refused(
      "incomplete",
      `The score needs every component; not given: ${missing.join(", ")}. No partial sum is told.`,
    );
  }
  return notWhole(
    components.map(({ name, points, from, to }) => ({
      name: `The ${name}`,
      value: points ?? Number.NaN,
      unit: "points",
      from,
      to,
    })),
  );
}
