import type { MolPerCubicMetre, PascalAbsolute } from "@/lib/units/measure";
import type { Condensation } from "./fluid";
import type { Isotherm } from "./helmholtz";

/** Liquid and vapor of one temperature in balance. */
export interface Saturation {
  readonly pressure: PascalAbsolute;
  readonly liquid: MolPerCubicMetre;
  readonly vapor: MolPerCubicMetre;
}

const STEPS = 60;
const SETTLED = 1e-12;
/** At the critical point both densities meet, and the estimates with them. Newton needs two different ones to begin with. */
const LEAST_APART = 0.011;

const known = new WeakMap<Isotherm, Saturation>();

/**
 * Liquid and vapor in balance (the Maxwell construction), or null where the fluid does not condense at that temperature.
 *
 *   p(rho') = p(rho'')   and   [alphar + delta alphar_delta + ln delta]' = [...]''
 *
 * Newton's method in both densities, from the published estimates.
 *
 * error     of the arithmetic below 1e-9; of the equation 0.2 % in pressure (its paper, from memory)
 * source    the equation of the fluid and the saturated densities published with it
 */
export function saturationOf(isotherm: Isotherm): Saturation | null {
  const { condensation } = isotherm.fluid;
  if (!condensation || isotherm.kelvin >= condensation.criticalTemperature) return null;
  const before = known.get(isotherm);
  if (before) return before;
  const found = balanced(isotherm, condensation);
  known.set(isotherm, found);
  return found;
}

/** p and potential of one phase, reduced, with their slopes in delta. */
interface Phase {
  readonly pressure: number;
  readonly potential: number;
  readonly stiffness: number;
}

function phaseAt(isotherm: Isotherm, delta: number): Phase {
  const potential = isotherm.potential(isotherm.density(delta));
  return { pressure: delta * isotherm.compressibility, potential, stiffness: isotherm.stiffness };
}

function balanced(isotherm: Isotherm, condensation: Condensation): Saturation {
  let [liquid, vapor] = estimates(isotherm.kelvin, condensation);
  for (let n = 0; n < STEPS; n += 1) {
    const inLiquid = phaseAt(isotherm, liquid);
    const inVapor = phaseAt(isotherm, vapor);
    const pressure = inLiquid.pressure - inVapor.pressure;
    const potential = inLiquid.potential - inVapor.potential;
    // Slopes: dp/ddelta = s, dpotential/ddelta = s/delta, for each phase.
    const spread = 1 / liquid - 1 / vapor;
    const liquidStep = (potential - pressure / vapor) / (inLiquid.stiffness * spread);
    const vaporStep = (potential - pressure / liquid) / (inVapor.stiffness * spread);
    const damped = Math.min(1, (0.4 * (liquid - vapor)) / (Math.abs(liquidStep) + Math.abs(vaporStep)));
    liquid -= damped * liquidStep;
    vapor -= damped * vaporStep;
    if (Math.abs(liquidStep) < SETTLED * liquid && Math.abs(vaporStep) < SETTLED * vapor) break;
  }
  const density = isotherm.density(vapor);
  return { pressure: isotherm.pressure(density), liquid: isotherm.density(liquid), vapor: density };
}

function estimates(kelvin: number, { criticalTemperature, liquid, vapor }: Condensation): [number, number] {
  const theta = 1 - kelvin / criticalTemperature;
  const sum = (terms: Condensation["liquid"]) => terms.reduce((total, [n, t]) => total + n * theta ** t, 0);
  return [Math.max(1 + sum(liquid), 1 + LEAST_APART), Math.min(Math.exp(sum(vapor)), 1 - LEAST_APART)];
}
