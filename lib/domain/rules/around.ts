/** Far finer than any reading, and far coarser than what adding two numbers leaves behind. */
const FINENESS = 1e9;
const rounded = (value: number): number => Math.round(value * FINENESS) / FINENESS;

/** Is a reading inside expected ± within, both ends included as they are written: 21.96 is inside 21 ± 0.96. */
export const isWithin = (value: number, expected: number, within: number): boolean =>
  value >= rounded(expected - within) && value <= rounded(expected + within);
