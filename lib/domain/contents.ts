import { cylinderContents } from "@/lib/calculations/cylinder-contents";
import type { FittedCylinder } from "@/lib/domain/evidence";
import { numeral } from "@/lib/domain/wording";
import type { Quantity } from "@/lib/units/quantity";

/** ", 222 L": what a gauge reading means in litres, or nothing where the gauge cannot tell. */
export function contentsText(reading: Quantity, cylinder: FittedCylinder): string {
  const contents = cylinderContents(reading, cylinder);
  return contents.ok ? `, ${numeral(Math.round(contents.litres))} L` : "";
}
