import { type Refused, refused } from "./calculated";

/** One input and the range in which it can be meant. */
export interface Bounded {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly from: number;
  readonly to: number;
}

/**
 * The first input that lies outside its range, refused by name. The ranges are wide: they catch a wrong unit, a slipped decimal point
 * and a sign, and they keep every result finite.
 */
export function outOfRange(inputs: readonly Bounded[]): Refused<"out-of-range"> | null {
  const wrong = inputs.find(({ value, from, to }) => !(value >= from && value <= to));
  if (!wrong) return null;
  const { name, value, unit, from, to } = wrong;
  const written = unit === "" ? "" : ` ${unit}`;
  return refused("out-of-range", `${name} is ${value}${written}; it must lie from ${from} to ${to}${written}.`);
}

/** A whole number in its range, or a refusal that names it. */
export function notWhole(inputs: readonly Bounded[]): Refused<"out-of-range"> | null {
  const outside = outOfRange(inputs);
  if (outside) return outside;
  const broken = inputs.find(({ value }) => !Number.isInteger(value));
  return broken ? refused("out-of-range", `${broken.name} is ${broken.value}; it must be a whole number.`) : null;
}
