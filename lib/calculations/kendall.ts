const TAIL = 0.025;
const NORMAL_TAIL = 1.959963984540054;
/** Up to this many readings the distribution is counted out; beyond it the normal one is close. */
const COUNTED_UP_TO = 60;

/**
 * How many of the smallest and of the largest pairwise slopes lie outside a 95 % interval of the slope; null when so few readings
 * cannot give one (four readings in a row fall by chance once in 24 times).
 *
 * Without readings at equal times, from the exact distribution of the number of inversions of a permutation; with equal times, or many
 * readings, from the normal approximation with the correction for ties.
 *
 * source    Sen, J Am Stat Assoc 1968;63:1379 (from memory); Kendall's distribution of S by its recursion
 */
export function slopesOutside(times: readonly number[], comparablePairs: number): number | null {
  const ties = tieSizes(times);
  const counted = ties.length === 0 && times.length <= COUNTED_UP_TO;
  const outside = counted ? countedOut(times.length) : approximate(times.length, ties, comparablePairs);
  return outside < 0 ? null : outside;
}

function countedOut(count: number): number {
  const chances = inversionChances(count);
  let sum = 0;
  let outside = -1;
  for (const chance of chances) {
    sum += chance;
    if (sum > TAIL) break;
    outside += 1;
  }
  return outside;
}

/** The chance of each number of inversions, from 0, in a random order of `count` values. */
function inversionChances(count: number): number[] {
  let chances = [1];
  for (let size = 2; size <= count; size += 1) {
    const longer = new Array<number>(chances.length + size - 1);
    let window = 0;
    for (let inversions = 0; inversions < longer.length; inversions += 1) {
      window += (chances[inversions] ?? 0) - (chances[inversions - size] ?? 0);
      longer[inversions] = window / size;
    }
    chances = longer;
  }
  return chances;
}

function approximate(count: number, ties: readonly number[], pairs: number): number {
  const term = (size: number) => size * (size - 1) * (2 * size + 5);
  const variance = (term(count) - ties.reduce((sum, size) => sum + term(size), 0)) / 18;
  return Math.floor((pairs - NORMAL_TAIL * Math.sqrt(variance)) / 2) - 1;
}

/** Sizes of the groups of equal times, larger than one. */
function tieSizes(times: readonly number[]): number[] {
  const sizes = new Map<number, number>();
  for (const time of times) sizes.set(time, (sizes.get(time) ?? 0) + 1);
  return [...sizes.values()].filter((size) => size > 1);
}
