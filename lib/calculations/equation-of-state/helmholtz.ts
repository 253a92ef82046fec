import {
  type Kelvin,
  type MolPerCubicMetre,
  molPerCubicMetre,
  type PascalAbsolute,
  pascalAbsolute,
} from "@/lib/units/measure";
import type { Fluid } from "./fluid";
import { coefficientsAt, type Group, layoutOf } from "./layout";

/**
 * An equation of state at one temperature.
 *
 *   alphar = sum n delta^d tau^t exp(-delta^l),   delta = rho/rho_red,   tau = T_red/T
 *   p      = rho R T (1 + delta alphar_delta)
 *   dp/drho = R T (1 + 2 delta alphar_delta + delta^2 alphar_deltadelta)
 *
 * Everything that depends on temperature alone is worked out once, here: n tau^t, and the terms with equal d and l added up. What
 * remains is one polynomial in delta for each exponential, so that a pressure costs no power function at all.
 *
 * in        density in mol/m3
 * out       absolute pressure in Pa, its slope, and the logarithm of the fugacity that decides the balance of liquid and vapor
 * error     that of the equation (its paper's); the arithmetic adds less than 1e-12
 * source    form of the equation: the papers named with each fluid
 */
export class Isotherm {
  readonly fluid: Fluid;
  readonly kelvin: Kelvin;
  /** J/mol */
  readonly energy: number;
  readonly #groups: readonly Group[];
  readonly #coefficients: Float64Array;
  /** p/(rho R T) and dp/drho/(R T) of the last `evaluate`. Fields and not an answer: the solver asks millions of times a second. */
  compressibility = 1;
  stiffness = 1;

  constructor(fluid: Fluid, kelvin: Kelvin) {
    this.fluid = fluid;
    this.kelvin = kelvin;
    this.energy = fluid.gasConstant * kelvin;
    const layout = layoutOf(fluid);
    this.#groups = layout.groups;
    this.#coefficients = coefficientsAt(layout, fluid.reducingTemperature / kelvin);
  }

  /** Sets `compressibility` and `stiffness` for a reduced density. */
  evaluate(delta: number): void {
    let first = 0;
    let second = 0;
    const coefficients = this.#coefficients;
    for (const { l, offset, degree } of this.#groups) {
      let p = 0;
      let q = 0;
      let s = 0;
      for (let d = degree; d > 0; d -= 1) {
        const c = coefficients[offset + d] as number;
        p = p * delta + c;
        q = q * delta + d * c;
        s = s * delta + d * d * c;
      }
      if (l === 0) {
        first += q * delta;
        second += (s + q) * delta;
      } else {
        const lu = l * integerPower(delta, l);
        const weight = Math.exp(-lu / l) * delta;
        first += weight * (q - lu * p);
        second += weight * (s + q - 2 * lu * q + lu * (lu - 1 - l) * p);
      }
    }
    this.compressibility = 1 + first;
    this.stiffness = 1 + second;
  }

  pressure(density: MolPerCubicMetre): PascalAbsolute {
    this.evaluate(density / this.fluid.reducingDensity);
    return pascalAbsolute(density * this.energy * this.compressibility);
  }

  /** dp/drho in Pa m3/mol. */
  slope(density: MolPerCubicMetre): number {
    this.evaluate(density / this.fluid.reducingDensity);
    return this.energy * this.stiffness;
  }

  /** alphar + delta alphar_delta + ln delta: equal in liquid and vapor that stand in balance. */
  potential(density: MolPerCubicMetre): number {
    const delta = density / this.fluid.reducingDensity;
    let residual = 0;
    for (const { l, offset, degree } of this.#groups) {
      let p = 0;
      for (let d = degree; d > 0; d -= 1) p = p * delta + (this.#coefficients[offset + d] as number);
      residual += p * delta * (l === 0 ? 1 : Math.exp(-integerPower(delta, l)));
    }
    this.evaluate(delta);
    return residual + this.compressibility - 1 + Math.log(delta);
  }

  density(reduced: number): MolPerCubicMetre {
    return molPerCubicMetre(reduced * this.fluid.reducingDensity);
  }
}

function integerPower(base: number, exponent: number): number {
  let power = base;
  for (let n = 1; n < exponent; n += 1) power *= base;
  return power;
}
