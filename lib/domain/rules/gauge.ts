import type { Answer } from "@/lib/domain/answer";
import type { FittedCylinder } from "@/lib/domain/evidence";
import type { Subject } from "@/lib/domain/items";
import type { Assessment, Place } from "@/lib/domain/rule";
import { isBelow, type PressureUnit, type Quantity, quantity, valueIn } from "@/lib/units/quantity";

/** Cylinder gauges: a reading counts only when the valve was open, because a shut one shows pressure that is merely trapped. */

export function cylinderNamed(subject: Subject, { workstation }: Pick<Place, "workstation">): FittedCylinder | null {
  if (subject.kind !== "cylinder") return null;
  return workstation?.fitted.cylinders.find(({ id }) => id === subject.id) ?? null;
}

/**
 * A limit for one cylinder: a pressure stays as it was typed, a share of the rated filling pressure becomes a pressure in the
 * unit of the site's gauges.
 */
export function limitFor(cylinder: FittedCylinder, limit: Quantity, unit: PressureUnit): Quantity {
  if (limit.unit !== "%") return limit;
  const rated = valueIn(cylinder.ratedPressure, unit) ?? cylinder.ratedPressure.value;
  return quantity((rated * limit.value) / 100, unit);
}

export function gaugeAssessment(answer: Answer, limit: Quantity | null): Assessment {
  if (answer.kind !== "gauge" && answer.kind !== "number") return "uncounted";
  if (answer.kind === "gauge" && !answer.openWhenRead) return "uncounted";
  const below = limit === null ? null : isBelow(answer.reading, limit);
  if (below === null) return "uncounted";
  return below ? "fail" : "pass";
}
