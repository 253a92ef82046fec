import type { PascalAbsolute } from "@/lib/units/measure";
import type { Isotherm } from "./helmholtz";

/** Newton's last step is so small that the next one would be lost in the arithmetic: the error squares each time. */
const SETTLED = 1e-9;
const NEWTON_STEPS = 60;
/** Each halves the bracket; after these it is as narrow as the numbers are dense. */
const HALVINGS = 60;

/**
 * The reduced density between two others at which the isotherm has that pressure.
 *
 * Newton's method, kept inside a bracket that every evaluation narrows; a step that would leave the bracket, or a slope that
 * does not rise (inside the two-phase loop, at the critical point), is replaced by a halving. So it ends on every isotherm,
 * also where Newton alone would not.
 *
 * in        pressure in Pa above vacuum; a bracket whose low end has a lower pressure and whose high end a higher one
 * error     relative 1e-14 on an ordinary state; 1e-5 in density at the critical point itself, where the pressure hardly depends on it
 */
export function reducedDensity(
  isotherm: Isotherm,
  pressure: PascalAbsolute,
  low: number,
  high: number,
  start: number,
): number {
  const target = pressure / (isotherm.fluid.reducingDensity * isotherm.energy);
  let below = low;
  let above = high;
  let delta = start;
  for (let n = 0; n < NEWTON_STEPS; n += 1) {
    isotherm.evaluate(delta);
    const missing = target - delta * isotherm.compressibility;
    if (missing > 0) below = delta;
    else above = delta;
    const step = missing / isotherm.stiffness;
    const next = delta + step;
    const good = isotherm.stiffness > 0 && next > below && next < above;
    if (good && Math.abs(step) < SETTLED * delta) return next;
    if (missing === 0) return delta;
    delta = good ? next : (below + above) / 2;
  }
  return halved(isotherm, target, below, above);
}

function halved(isotherm: Isotherm, target: number, low: number, high: number): number {
  let below = low;
  let above = high;
  for (let n = 0; n < HALVINGS; n += 1) {
    const middle = (below + above) / 2;
    isotherm.evaluate(middle);
    if (middle * isotherm.compressibility < target) below = middle;
    else above = middle;
  }
  return (below + above) / 2;
}
