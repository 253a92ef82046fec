import type { Fluid } from "./fluid";

/** The terms that share one exponential, as one polynomial: the coefficient of delta^d is at `offset + d`, d = 1 … degree. */
export interface Group {
  readonly l: number;
  readonly offset: number;
  readonly degree: number;
}

/** Which term goes where: the same at every temperature. */
export interface Layout {
  readonly groups: readonly Group[];
  readonly length: number;
  /** The different exponents of tau. */
  readonly exponents: Float64Array;
  /** Of each term: its factor, the place of its exponent above, and the place of its coefficient. */
  readonly factors: Float64Array;
  readonly exponentOf: Uint8Array;
  readonly placeOf: Uint8Array;
}

const layouts = new WeakMap<Fluid, Layout>();

export function layoutOf(fluid: Fluid): Layout {
  const known = layouts.get(fluid);
  if (known) return known;
  const made = laidOut(fluid);
  layouts.set(fluid, made);
  return made;
}

function laidOut({ terms }: Fluid): Layout {
  const exponents = [...new Set(terms.map(([, , t]) => t))];
  const groups: Group[] = [];
  let length = 0;
  for (const l of new Set(terms.map((term) => term[3]))) {
    const degree = Math.max(...terms.filter((term) => term[3] === l).map(([, d]) => d));
    groups.push({ l, offset: length, degree });
    length += degree + 1;
  }
  const offsetOf = (l: number) => groups.find((group) => group.l === l)?.offset ?? 0;
  return {
    groups,
    length,
    exponents: Float64Array.from(exponents),
    factors: Float64Array.from(terms, ([n]) => n),
    exponentOf: Uint8Array.from(terms, ([, , t]) => exponents.indexOf(t)),
    placeOf: Uint8Array.from(terms, ([, d, , l]) => offsetOf(l) + d),
  };
}

/** The coefficients at one temperature: n tau^t, those of equal d and l added up. */
export function coefficientsAt({ length, exponents, factors, exponentOf, placeOf }: Layout, tau: number): Float64Array {
  const coefficients = new Float64Array(length + exponents.length);
  const logarithm = Math.log(tau);
  for (let n = 0; n < exponents.length; n += 1)
    coefficients[length + n] = Math.exp((exponents[n] as number) * logarithm);
  for (let n = 0; n < factors.length; n += 1) {
    const place = placeOf[n] as number;
    coefficients[place] =
      (coefficients[place] as number) +
      (factors[n] as number) * (coefficients[length + (exponentOf[n] as number)] as number);
  }
  return coefficients;
}
