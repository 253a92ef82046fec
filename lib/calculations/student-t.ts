/**
 * The t that a Student distribution of so many degrees of freedom exceeds, in size, with 5 % chance.
 *
 * source    distribution for whole degrees of freedom: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4
 *           (from memory; held against published tables)
 */
export function t95(degrees: number): number {
  let low = 0;
  let high = 20;
  for (let step = 0; step < 100; step += 1) {
    const middle = (low + high) / 2;
    if (shareWithin(middle, degrees) < 0.95) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The share of the distribution between -t and t. */
export function shareWithin(t: number, degrees: number): number {
  const angle = Math.atan(t / Math.sqrt(degrees));
  const cosine = Math.cos(angle);
  const odd = degrees % 2 === 1;
  let term = odd ? cosine : 1;
  let sum = odd && degrees === 1 ? 0 : term;
  for (let k = odd ? 3 : 2; k <= degrees - 2; k += 2) {
    term *= ((k - 1) / k) * cosine * cosine;
    sum += term;
  }
  return odd ? (2 / Math.PI) * (angle + Math.sin(angle) * sum) : Math.sin(angle) * sum;
}
