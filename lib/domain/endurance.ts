import { cylinderContents } from "@/lib/calculations/cylinder-contents";
import { enduranceMinutes } from "@/lib/calculations/endurance";
import type { FittedCylinder } from "@/lib/domain/evidence";
import type { Place } from "@/lib/domain/rule";
import { endurance } from "@/lib/domain/rules/policy/endurance";
import { valuesOf } from "@/lib/domain/rules/settings";
import { type Quantity, valueIn } from "@/lib/units/quantity";

/** Whole minutes of ventilation by hand from this cylinder at the site's flow, down to the residual; null where it cannot be told. */
export function minutesByHand(
  reading: Quantity,
  cylinder: FittedCylinder,
  place: Pick<Place, "facility" | "settings">,
): number | null {
  const { byHandFlow, residual } = valuesOf(endurance, place);
  const contents = cylinderContents(reading, cylinder);
  const left = cylinderContents(residual, cylinder);
  const flow = valueIn(byHandFlow, "L/min");
  if (!contents.ok || !left.ok || flow === null) return null;
  const lasts = enduranceMinutes(contents.litres, left.litres, flow);
  // Rounded down: a minute that is not there must not be promised.
  return lasts.ok ? Math.floor(lasts.minutes) : null;
}
