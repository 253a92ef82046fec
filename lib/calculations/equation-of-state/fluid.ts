/** One term of the residual part: n delta^d tau^t, times exp(-delta^l) where l > 0. Written [n, d, t, l]. */
export type PowerTerm = readonly [n: number, d: number, t: number, l: number];

/** A published equation of state: what its paper fixes. Each paper has its own gas constant, and its equation is right only with it. */
export interface Fluid {
  readonly name: string;
  /** g/mol */
  readonly molarMass: number;
  /** J/(mol K), as the paper uses it. */
  readonly gasConstant: number;
  /** K */
  readonly reducingTemperature: number;
  /** mol/m3 */
  readonly reducingDensity: number;
  readonly terms: readonly PowerTerm[];
  /** Null where the fluid is far above its critical temperature in every room. */
  readonly condensation: Condensation | null;
  readonly source: string;
}

/** One term of a published estimate of a saturated density: n theta^t, theta = 1 - T/T_c. */
type EstimateTerm = readonly [n: number, t: number];

/** Where the fluid is a liquid below its vapor, and where to begin the search for the two densities. */
export interface Condensation {
  /** K */
  readonly criticalTemperature: number;
  /** delta' = 1 + sum n theta^t */
  readonly liquid: readonly EstimateTerm[];
  /** delta'' = exp(sum n theta^t) */
  readonly vapor: readonly EstimateTerm[];
}
