import type { Kelvin, PascalAbsolute } from "@/lib/units/measure";
import type { Fluid } from "./equation-of-state/fluid";
import { at } from "./equation-of-state/isotherms";
import { saturationOf } from "./equation-of-state/saturation";

/**
 * How far below its saturation pressure a reading still counts as saturation.
 *
 * The equation's vapor pressure is good to 0.2 % (its paper, from memory); an older evaluation stands 0.16 % above it, and a gauge is
 * read in whole psi: the handbook's full ISO cylinder, 44 bar at 15 C, is 0.05 % below. So 0.2 % keeps every full cylinder on the side of
 * liquid, and where it is wrong the floor is less than 1 % too high. It does not cover the gauge: one of class 2.5 and 3,000 psi is off
 * by as much as 75 psi, and near saturation no gauge can tell gas from liquid. Between there and saturation the answer is that of the
 * gas, the smaller and so the safe one, and its uncertainty reaches up to a full cylinder.
 */
const SATURATION_TOLERANCE = 0.002;

/** Could liquid remain at this reading? False above the critical temperature: there is no liquid there. */
export function liquidRemains(fluid: Fluid, pressure: PascalAbsolute, kelvin: Kelvin): boolean {
  const saturation = saturationOf(at(fluid, kelvin));
  return saturation !== null && pressure >= saturation.pressure * (1 - SATURATION_TOLERANCE);
}
