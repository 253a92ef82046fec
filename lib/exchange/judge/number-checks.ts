import type { Evidence } from "@/lib/domain/evidence";
import { isPressureUnit, pressureIn } from "@/lib/units/pressure";
import type { Unit } from "@/lib/units/quantity";
import { type DocumentProblem, pathOf, type Step } from "./problem";

/** Beyond this no gauge in an operating room reads: a third over the highest filling pressure in use, 230 bar. */
const MOST_PSI = 4_500;
/** Room for an analyzer that reads high; more than all of it there cannot be. */
const MOST_PERCENT = 110;
const TEN_YEARS_IN: Partial<Record<Unit, number>> = { s: 315_360_000, min: 5_256_000, h: 87_600, d: 3_650 };
/** More of anything is a slip of the pen, and far below what could no longer be reckoned with. */
export const MOST = 1_000_000;

/** The most that can be in a unit, as a reading or as a limit. */
export function mostIn(unit: Unit): number {
  if (isPressureUnit(unit)) return pressureIn(MOST_PSI, "psi", unit);
  if (unit === "%") return MOST_PERCENT;
  return TEN_YEARS_IN[unit] ?? MOST;
}

export const outside = (path: readonly Step[], value: number, most: number, unit = ""): DocumentProblem => ({
  path: pathOf(path),
  value,
  message: `must be from 0 to ${Math.round(most)}${unit === "" ? "" : ` ${unit}`}`,
});

/** Numbers of the place and of what is fitted; the schema has seen to it that they are not negative. */
export function numberProblems({ room, workstation, trends }: Evidence): DocumentProblem[] {
  const problems: DocumentProblem[] = [];
  const look = (path: readonly Step[], value: number | null | undefined, most = MOST, unit = ""): void => {
    if (typeof value === "number" && Math.abs(value) > most) problems.push(outside(path, value, most, unit));
  };
  look(["room", "list", "setUpMinutes"], room?.list?.setUpMinutes);
  room?.supplies?.forEach(({ count, par }, place) => {
    look(["room", "supplies", place, "count"], count);
    look(["room", "supplies", place, "par"], par);
  });
  look(["workstation", "model", "vaporFreeMinutes"], workstation?.model.vaporFreeMinutes);
  look(["workstation", "model", "vaporFreeFilterMinutes"], workstation?.model.vaporFreeFilterMinutes);
  workstation?.fitted.cylinders.forEach(({ waterCapacityL, ratedContentsL, ratedPressure }, place) => {
    const at = ["workstation", "fitted", "cylinders", place];
    look([...at, "waterCapacityL"], waterCapacityL);
    look([...at, "ratedContentsL"], ratedContentsL);
    look([...at, "ratedPressure", "value"], ratedPressure.value, mostIn(ratedPressure.unit), ratedPressure.unit);
  });
  workstation?.fitted.absorbent.forEach(({ massG, product }, place) => {
    const at = ["workstation", "fitted", "absorbent", place];
    look([...at, "massG"], massG);
    look([...at, "product", "litresPer100g"], product.litresPer100g);
  });
  trends.forEach(({ slope }, place) => {
    look(["trends", place, "slope", "value"], slope?.value);
  });
  return problems;
}
