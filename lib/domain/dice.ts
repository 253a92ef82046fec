/** Repeatable chance: the same seed throws the same numbers, on every machine. */
export interface Dice {
  /** At least 0, below 1. */
  next(): number;
  /** A whole number from least to most, both included. */
  between(least: number, most: number): number;
  pick<One>(from: readonly One[]): One;
  shuffled<One>(from: readonly One[]): One[];
}

/** The largest seed that is told apart from its neighbours. */
export const LARGEST_SEED = 4_294_967_295;

/** Mulberry32, a small public-domain generator with a period of 2^32 (T. Ettinger, from memory): good enough for invented readings and planted faults, for nothing secret. */
export function dice(seed: number): Dice {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  const between = (least: number, most: number) => least + Math.floor(next() * (most - least + 1));
  const pick = <One>(from: readonly One[]): One => {
    const one = from[between(0, from.length - 1)];
    if (one === undefined) throw new Error("nothing to pick from");
    return one;
  };
  const shuffled = <One>(from: readonly One[]): One[] => {
    const left = [...from];
    for (let last = left.length - 1; last > 0; last -= 1) {
      const other = between(0, last);
      [left[last], left[other]] = [left[other] as One, left[last] as One];
    }
    return left;
  };
  return { next, between, pick, shuffled };
}
