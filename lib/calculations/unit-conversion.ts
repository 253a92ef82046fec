import { isPressureUnit, PRESSURE_UNITS, pressureIn } from "@/lib/units/pressure";
import { absoluteZero, isTemperatureUnit, TEMPERATURE_UNITS, temperatureIn } from "@/lib/units/temperature";
import { isVolumeUnit, VOLUME_UNITS, volumeIn } from "@/lib/units/volume";
import { type Calculated, refused } from "./calculated";

export const CONVERTIBLE_UNITS = [...PRESSURE_UNITS, ...VOLUME_UNITS, ...TEMPERATURE_UNITS] as const;
export type ConvertibleUnit = (typeof CONVERTIBLE_UNITS)[number];

/**
 * A value in another unit of the same kind: psi, kPa, bar, mmHg, cmH2O, inHg; L, mL; C, F, K.
 *
 * out       exact to the definitions of the units; gauge pressures stay gauge pressures
 * error     floating point, about 1e-16 of the value
 * refuses   units of two kinds, and a temperature below absolute zero
 * source    NIST Special Publication 811, appendix B (from memory)
 */
export function convertUnit(
  value: number,
  from: ConvertibleUnit,
  to: ConvertibleUnit,
): Calculated<number, "not-a-number" | "units-of-two-kinds" | "below-absolute-zero"> {
  if (!Number.isFinite(value)) return refused("not-a-number", `The value ${value} is not a finite number.`);
  if (isTemperatureUnit(from) && value < absoluteZero(from))
    return refused(
      "below-absolute-zero",
      `The value ${value} ${from} is below absolute zero, ${absoluteZero(from)} ${from}.`,
    );
  const converted = convertedValue(value, from, to);
  if (converted === null)
    return refused(
      "units-of-two-kinds",
      `The units ${from} and ${to} do not measure the same thing: ${from} goes with ${sameKind(from)}.`,
    );
  if (!Number.isFinite(converted))
    return refused("not-a-number", `The value ${value} ${from} is too large to be written in ${to}.`);
  return {
    ok: true,
    value: converted,
    method: "definition of the units",
    uncertainty: null,
    source: "NIST Special Publication 811, appendix B (from memory)",
  };
}

function convertedValue(value: number, from: ConvertibleUnit, to: ConvertibleUnit): number | null {
  if (isPressureUnit(from)) return isPressureUnit(to) ? pressureIn(value, from, to) : null;
  if (isVolumeUnit(from)) return isVolumeUnit(to) ? volumeIn(value, from, to) : null;
  return isTemperatureUnit(to) ? temperatureIn(value, from, to) : null;
}

function sameKind(unit: ConvertibleUnit): string {
  if (isPressureUnit(unit)) return PRESSURE_UNITS.join(", ");
  return (isVolumeUnit(unit) ? VOLUME_UNITS : TEMPERATURE_UNITS).join(", ");
}
