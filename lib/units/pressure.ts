import { type PascalGauge, pascalGauge } from "./measure";

/** Pressure units of the trade. Gauge readings are relative to ambient unless a name says absolute. */
export const PRESSURE_UNITS = ["psi", "kPa", "bar", "mmHg", "cmH2O", "inHg"] as const;
export type PressureUnit = (typeof PRESSURE_UNITS)[number];

/**
 * Pascals in one of each unit.
 * psi, inHg, mmHg: from the exact pound (0.45359237 kg), inch (0.0254 m), standard gravity (9.80665 m/s2) and the conventional
 * millimetre of mercury (133.322387415 Pa); cmH2O: conventional, 98.0665 Pa. Source: NIST Special Publication 811, appendix B (from memory).
 */
const PASCALS: Record<PressureUnit, number> = {
  psi: (0.45359237 * 9.80665) / 0.0254 ** 2,
  kPa: 1_000,
  bar: 100_000,
  mmHg: 133.322387415,
  cmH2O: 98.0665,
  inHg: 133.322387415 * 25.4,
};

export function isPressureUnit(unit: string): unit is PressureUnit {
  return unit in PASCALS;
}

/** A pressure expressed in another unit; error: floating point only. */
export function pressureIn(value: number, from: PressureUnit, to: PressureUnit): number {
  return from === to ? value : (value * PASCALS[from]) / PASCALS[to];
}

/** A gauge reading as the formulas take it. */
export function gaugePressure(value: number, unit: PressureUnit): PascalGauge {
  return pascalGauge(value * PASCALS[unit]);
}

/** A gauge pressure in a unit of the trade. */
export function gaugePressureIn(pressure: PascalGauge, unit: PressureUnit): number {
  return pressure / PASCALS[unit];
}
