import { type Celsius, celsius, type Kelvin, kelvin } from "./measure";

export const TEMPERATURE_UNITS = ["C", "F", "K"] as const;
export type TemperatureUnit = (typeof TEMPERATURE_UNITS)[number];

/** 0 C in K, exact by the definition of the Celsius scale (International Bureau of Weights and Measures, from memory). */
const ZERO_CELSIUS = 273.15;
/** 0 F above absolute zero, in degrees Fahrenheit: 1.8 x 273.15 - 32. */
const ZERO_FAHRENHEIT = 459.67;

export function isTemperatureUnit(unit: string): unit is TemperatureUnit {
  return (TEMPERATURE_UNITS as readonly string[]).includes(unit);
}

/**
 * A temperature on another scale: t(F) = 1.8 t(C) + 32 and T(K) = t(C) + 273.15, both exact (NIST Special Publication 811, appendix B,
 * from memory); error: floating point only.
 */
export function temperatureIn(value: number, from: TemperatureUnit, to: TemperatureUnit): number {
  if (from === to) return value;
  if (from === "K") return to === "C" ? value - ZERO_CELSIUS : value * 1.8 - ZERO_FAHRENHEIT;
  if (to === "K") return from === "C" ? value + ZERO_CELSIUS : (value + ZERO_FAHRENHEIT) / 1.8;
  return to === "F" ? value * 1.8 + 32 : (value - 32) / 1.8;
}

export function kelvinOf(temperature: Celsius): Kelvin {
  return kelvin(temperature + ZERO_CELSIUS);
}

export function celsiusOf(value: number, unit: TemperatureUnit): Celsius {
  return celsius(temperatureIn(value, unit, "C"));
}

/** The coldest that a temperature can be, on its scale. */
export function absoluteZero(unit: TemperatureUnit): number {
  return unit === "K" ? 0 : unit === "C" ? -ZERO_CELSIUS : -ZERO_FAHRENHEIT;
}
