import { reserveMinutes } from "@/lib/domain/endurance";
import type { Evidence, FittedCylinder, Observation, Occupancy } from "@/lib/domain/evidence";
import { gaugeWorth } from "@/lib/domain/gauge-worth";
import type { Judgement, Mark } from "@/lib/domain/judgement";
import type { Gas, Limit, Need, WasteGas } from "@/lib/domain/vocabulary";
import { type Quantity, valueIn } from "@/lib/units/quantity";
import { instantOf, type Timestamp } from "@/lib/units/time";

/** Reserve oxygen as its gauge was last read with the valve open, and what that is worth. */
export interface Reserve {
  readonly reading: Quantity;
  readonly litres: number | null;
  /** The low end of the litres, from which the minutes are counted. */
  readonly litresLow: number | null;
  readonly minutesByHand: number | null;
  readonly minutesOnVentilator: number | null;
  readonly method: string;
  readonly observedAt: Timestamp;
}

/** What a board needs of one judged room: taken from evidence and judgement once, when it is judged. */
export interface BoardSummary {
  readonly occupancy: Occupancy;
  readonly marks: { readonly equipment: Mark | null; readonly provider: Mark | null };
  readonly headline: string | null;
  readonly headlineRule: string | null;
  readonly moreReasons: number;
  readonly limits: readonly Limit[];
  readonly limitsAllowed: boolean;
  readonly firstCase: Timestamp | null;
  readonly listEnd: Timestamp | null;
  readonly needs: readonly Need[];
  /** A list of this day, or the weekly template's; absent in answers that were stored before templates were. */
  readonly listFrom?: "day" | "week" | null;
  readonly reserve: Reserve | null;
  readonly piped: readonly Gas[];
  readonly wasteGas: WasteGas;
}

export function boardSummary(evidence: Evidence, judgement: Judgement): BoardSummary {
  const { room } = evidence;
  const [first, ...more] = judgement.reasons;
  return {
    occupancy: room?.occupancy ?? { state: "idle" },
    marks: judgement.marks,
    headline: first?.text ?? null,
    headlineRule: first?.rule ?? null,
    moreReasons: more.length,
    limits: judgement.limits,
    limitsAllowed: judgement.reasons.every(
      ({ severity, allowedUntil }) => severity !== "limits" || allowedUntil !== null,
    ),
    firstCase: room?.list?.firstCase ?? null,
    listEnd: room?.list?.end ?? null,
    needs: room?.list?.needs ?? [],
    reserve: reserveOf(evidence),
    piped: room?.piped ?? [],
    wasteGas: room?.wasteGas ?? "none",
  };
}

/** The fullest oxygen cylinder on the workstation whose gauge was read open. One is what a provider turns to first; they are not added up. */
export function reserveOf(evidence: Evidence): Reserve | null {
  const oxygen = evidence.workstation?.fitted.cylinders.filter(({ gas }) => gas === "oxygen") ?? [];
  const read = oxygen.flatMap((cylinder) => {
    const observation = latestOpenGauge(evidence.observations, cylinder);
    return observation ? [{ cylinder, ...observation }] : [];
  });
  const [best] = read.sort((left, right) => (valueIn(right.reading, "kPa") ?? 0) - (valueIn(left.reading, "kPa") ?? 0));
  if (!best) return null;
  const worth = gaugeWorth(best.reading, best.cylinder, evidence);
  const known = worth.kind === "litres";
  const minutes = reserveMinutes(best.reading, best.cylinder, evidence, evidence.workstation?.model ?? null);
  return {
    reading: best.reading,
    litres: known ? Math.round(worth.litres) : null,
    litresLow: known ? Math.round(Math.max(0, worth.low)) : null,
    minutesByHand: minutes?.byHand ?? null,
    minutesOnVentilator: minutes?.onVentilator ?? null,
    method: worth.kind === "unknown" ? worth.why : "equation of state",
    observedAt: best.observedAt,
  };
}

function latestOpenGauge(
  observations: readonly Observation[],
  cylinder: FittedCylinder,
): { readonly reading: Quantity; readonly observedAt: Timestamp } | null {
  let latest: { reading: Quantity; observedAt: Timestamp } | null = null;
  for (const { item, subject, answer, observedAt } of observations) {
    if (item !== "cylinder-gauge" || subject.id !== cylinder.id || answer.kind !== "gauge" || !answer.openWhenRead)
      continue;
    if (latest === null || instantOf(observedAt) >= instantOf(latest.observedAt))
      latest = { reading: answer.reading, observedAt };
  }
  return latest;
}
