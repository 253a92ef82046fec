import { isPressureUnit, type PressureUnit, pressureIn } from "@/lib/units/pressure";

/** Every unit a reading or a limit may carry. A quantity is always written with its unit, never bare. */
export const UNITS = [
  "psi",
  "kPa",
  "bar",
  "mmHg",
  "cmH2O",
  "inHg",
  "%",
  "mL/min",
  "L/min",
  "L",
  "C",
  "s",
  "min",
  "h",
  "d",
] as const;
export type Unit = (typeof UNITS)[number];

/** A number with its unit, as it travels in evidence, settings and answers. */
export interface Quantity<U extends Unit = Unit> {
  readonly value: number;
  readonly unit: U;
}

/** The one constructor: a quantity is a finite number, so NaN and Infinity never enter a judgement. */
export function quantity<U extends Unit>(value: number, unit: U): Quantity<U> {
  if (!Number.isFinite(value)) throw new RangeError(`${value} is not a quantity in ${unit}`);
  return { value, unit };
}

/**
 * The value of `of` expressed in `unit`; null when the two units do not measure the same thing.
 * Exact to the definitions in pressure.ts; equal units pass through untouched, so a limit typed in psi meets a reading in psi exactly.
 */
export function valueIn(of: Quantity, unit: Unit): number | null {
  if (of.unit === unit) return of.value;
  if (isPressureUnit(of.unit) && isPressureUnit(unit)) return pressureIn(of.value, of.unit, unit);
  return null;
}

/** Is `left` below `right`? Null when they cannot be compared. */
export function isBelow(left: Quantity, right: Quantity): boolean | null {
  const value = valueIn(left, right.unit);
  return value === null ? null : value < right.value;
}

/** Is `left` above `right`? Null when they cannot be compared. */
export function isAbove(left: Quantity, right: Quantity): boolean | null {
  const value = valueIn(left, right.unit);
  return value === null ? null : value > right.value;
}

export type { PressureUnit };
