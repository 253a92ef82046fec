/**
 * The incomplete gamma function, for confidence limits of counts.
 * Source: Lanczos's approximation of ln gamma (coefficients g = 7, n = 9) and the series and continued fraction of Abramowitz and
 * Stegun, Handbook of Mathematical Functions, 6.5.29 and 6.5.31 (both from memory; held against published chi-square tables).
 */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
] as const;
const LANCZOS_G = 7;

/** ln gamma(x) for x of 1 or more. */
export function logGamma(x: number): number {
  const z = x - 1;
  const [first, ...rest] = LANCZOS;
  const sum = rest.reduce((total, coefficient, index) => total + coefficient / (z + index + 1), first as number);
  const t = z + LANCZOS_G + 0.5;
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(t) - t + Math.log(sum);
}

const CLOSE = 1e-15;
const MOST_TERMS = 100_000;

/** P(shape, x): the share of a gamma distribution (scale 1) below x; shape 1 or more, x 0 or more. */
export function gammaBelow(shape: number, x: number): number {
  if (x <= 0) return 0;
  const scale = Math.exp(shape * Math.log(x) - x - logGamma(shape));
  return x < shape + 1 ? scale * series(shape, x) : 1 - scale * continuedFraction(shape, x);
}

function series(shape: number, x: number): number {
  let term = 1 / shape;
  let sum = term;
  for (let n = 1; n < MOST_TERMS && term > sum * CLOSE; n += 1) {
    term *= x / (shape + n);
    sum += term;
  }
  return sum;
}

/** By Lentz's method. */
function continuedFraction(shape: number, x: number): number {
  let b = x + 1 - shape;
  let c = 1e300;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < MOST_TERMS; n += 1) {
    const a = -n * (n - shape);
    b += 2;
    d = 1 / (a * d + b);
    c = b + a / c;
    fraction *= d * c;
    if (Math.abs(d * c - 1) < CLOSE) break;
  }
  return fraction;
}

/** The x below which the share `below` of a gamma distribution (scale 1) lies: Newton's steps, kept between bounds that close in. */
export function gammaQuantile(shape: number, below: number): number {
  let low = 0;
  let high = shape + 20 * Math.sqrt(shape) + 50;
  let x = shape;
  for (let step = 0; step < 200; step += 1) {
    const off = gammaBelow(shape, x) - below;
    if (off < 0) low = x;
    else high = x;
    const slope = Math.exp((shape - 1) * Math.log(x) - x - logGamma(shape));
    const newton = x - off / slope;
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - x) <= x * 1e-14) return next;
    x = next;
  }
  return x;
}
