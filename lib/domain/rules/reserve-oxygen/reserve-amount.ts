import type { Answer } from "@/lib/domain/answer";
import { reserveMinutes } from "@/lib/domain/endurance";
import type { FittedCylinder } from "@/lib/domain/evidence";
import { gaugeWorth } from "@/lib/domain/gauge-worth";
import type { Assessment, Place } from "@/lib/domain/rule";
import { gaugeAssessment, limitFor } from "@/lib/domain/rules/gauge";
import { type Quantity, quantity } from "@/lib/units/quantity";

export const RESERVE_WORDS = ["pressure", "litres", "minutes"] as const;

/** What a site may judge its reserve by. A word that is none of these means pressure, as shipped. */
export interface ReserveLimits {
  readonly judgeBy: string;
  readonly atLeast: Quantity;
  readonly atLeastLitres: Quantity;
  readonly atLeastMinutes: Quantity;
}

/** The limit for one cylinder in what it is judged by. */
export function reserveLimit(cylinder: FittedCylinder, limits: ReserveLimits, place: Place): Quantity {
  if (limits.judgeBy === "litres") return limits.atLeastLitres;
  if (limits.judgeBy === "minutes") return limits.atLeastMinutes;
  return limitFor(cylinder, limits.atLeast, place.facility.pressureUnit);
}

/** What a reading comes to in that measure: for litres and minutes the low end of what the gauge can mean; null when it tells nothing. */
export function reserveAmount(
  reading: Quantity,
  cylinder: FittedCylinder,
  { judgeBy }: ReserveLimits,
  place: Place,
): Quantity | null {
  if (judgeBy === "litres") {
    const worth = gaugeWorth(reading, cylinder, place);
    return worth.kind === "litres" ? quantity(Math.max(0, Math.floor(worth.low)), "L") : null;
  }
  if (judgeBy === "minutes") {
    const minutes = reserveMinutes(reading, cylinder, place, place.workstation?.model ?? null);
    return minutes === null ? null : quantity(minutes.onVentilator, "min");
  }
  return reading;
}

export function reserveAssessment(
  answer: Answer,
  cylinder: FittedCylinder | null,
  limits: ReserveLimits,
  place: Place,
): Assessment {
  if (cylinder === null || (answer.kind !== "gauge" && answer.kind !== "number")) return "uncounted";
  const amount = reserveAmount(answer.reading, cylinder, limits, place);
  if (amount === null) return "uncounted";
  return gaugeAssessment({ ...answer, reading: amount }, reserveLimit(cylinder, limits, place));
}
