import type { Kelvin, MolPerCubicMetre, PascalAbsolute } from "@/lib/units/measure";
import type { Fluid } from "./fluid";
import type { Isotherm } from "./helmholtz";
import { at } from "./isotherms";
import { type Saturation, saturationOf } from "./saturation";
import { reducedDensity } from "./solve";

/** Reduced density above every state to 300 bar from -20 to 60 C (cold liquid nitrous oxide comes to 2.4). */
const DENSEST = 3;
/** Pressures closer to saturation than this are saturation: the arithmetic knows no better. */
const SAME_PRESSURE = 1e-9;

/** One phase with its density, or liquid and vapor together, whose density a pressure cannot tell. */
export type State =
  | { readonly phase: "gas" | "liquid" | "supercritical"; readonly density: MolPerCubicMetre }
  | { readonly phase: "two-phase"; readonly saturation: Saturation };

/**
 * Density of a fluid at a pressure and a temperature.
 *
 * in        Pa above vacuum, K
 * out       mol/m3 and the phase; "two-phase" on the saturation line of a fluid that condenses
 * valid     -20 to 60 C, up to 300 bar (all states end: see solve.ts)
 * error     that of the fluid's equation (0.1 % in density, papers, from memory), 1e-12 added by the arithmetic
 * source    the equation of each fluid: oxygen.ts, air.ts, nitrous-oxide.ts
 */
export function stateAt(fluid: Fluid, pressure: PascalAbsolute, kelvin: Kelvin): State {
  return stateOn(at(fluid, kelvin), pressure);
}

export function stateOn(isotherm: Isotherm, pressure: PascalAbsolute): State {
  const { condensation } = isotherm.fluid;
  const saturation = saturationOf(isotherm);
  if (saturation === null) {
    const phase = condensation && isotherm.kelvin < condensation.criticalTemperature ? "gas" : "supercritical";
    return { phase, density: densityOn(isotherm, pressure) };
  }
  if (Math.abs(pressure / saturation.pressure - 1) < SAME_PRESSURE) return { phase: "two-phase", saturation };
  return pressure < saturation.pressure
    ? { phase: "gas", density: vaporOn(isotherm, pressure, saturation) }
    : { phase: "liquid", density: liquidOn(isotherm, pressure, saturation) };
}

/** The density of a fluid above its critical temperature: the one that has this pressure. */
export function densityOn(isotherm: Isotherm, pressure: PascalAbsolute): MolPerCubicMetre {
  const ideal = pressure / (isotherm.energy * isotherm.fluid.reducingDensity);
  return isotherm.density(reducedDensity(isotherm, pressure, 0, DENSEST, Math.min(ideal, DENSEST / 2)));
}

function vaporOn(isotherm: Isotherm, pressure: PascalAbsolute, { vapor }: Saturation): MolPerCubicMetre {
  const most = vapor / isotherm.fluid.reducingDensity;
  const ideal = pressure / (isotherm.energy * isotherm.fluid.reducingDensity);
  return isotherm.density(reducedDensity(isotherm, pressure, 0, most, Math.min(ideal, most)));
}

function liquidOn(isotherm: Isotherm, pressure: PascalAbsolute, { liquid }: Saturation): MolPerCubicMetre {
  const least = liquid / isotherm.fluid.reducingDensity;
  return isotherm.density(reducedDensity(isotherm, pressure, least, DENSEST, least * 1.01));
}
