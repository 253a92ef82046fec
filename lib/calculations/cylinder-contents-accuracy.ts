import { gaugePressure, type PressureUnit } from "@/lib/units/pressure";
import type { Quantity } from "@/lib/units/quantity";
import { type Refused, refused } from "./calculated";
import type { ContentsAccuracy } from "./cylinder-contents";

/** Accuracy class of a cylinder gauge, percent of full scale: the class 2.5 of EN 837-1 (from memory; which class, common practice, no source). */
const GAUGE_CLASS = 2.5;
/** Full scale of a cylinder gauge, and of the next larger one for pressures beyond it (common practice, no source). */
const FULL_SCALES: readonly Quantity<PressureUnit>[] = [
  { value: 3_000, unit: "psi" },
  { value: 400, unit: "bar" },
];
/** The gas against the room (common practice, no source). */
const TEMPERATURE_K = 2;
/** Water capacity of one letter among makers: sources give 4.68 to 4.82 L for an E cylinder. */
const WATER_CAPACITY_PERCENT = 1.5;

/** The accuracy of the inputs in the units of the formulas. */
export interface Spread {
  /** Pa */
  readonly pressure: number;
  /** K */
  readonly temperature: number;
  /** Of one. */
  readonly waterCapacity: number;
  readonly words: string;
}

/** What is known of the inputs' accuracy, defaults filled in. */
export function spreadOf(
  reading: Quantity<PressureUnit>,
  given: Partial<ContentsAccuracy> = {},
): Spread | Refused<"accuracy-unusable"> {
  const gaugeClass = given.gaugeClass ?? GAUGE_CLASS;
  const fullScale = given.gaugeFullScale ?? fullScaleFor(reading);
  const temperature = given.temperatureK ?? TEMPERATURE_K;
  const waterCapacity = given.waterCapacityPercent ?? WATER_CAPACITY_PERCENT;
  if (!within(gaugeClass, 0, 10)) return unusable("gaugeClass", gaugeClass, "0 to 10 percent of full scale");
  if (!(fullScale.value > 0 && Number.isFinite(fullScale.value)))
    return unusable("gaugeFullScale", fullScale.value, `a pressure above 0 ${fullScale.unit}`);
  if (!within(temperature, 0, 20)) return unusable("temperatureK", temperature, "0 to 20 K");
  if (!within(waterCapacity, 0, 20)) return unusable("waterCapacityPercent", waterCapacity, "0 to 20 percent");
  return {
    pressure: (gaugeClass / 100) * gaugePressure(fullScale.value, fullScale.unit),
    temperature,
    waterCapacity: waterCapacity / 100,
    words: `gauge of class ${gaugeClass} with a full scale of ${fullScale.value} ${fullScale.unit}, temperature ± ${temperature} K, water capacity ± ${waterCapacity} %`,
  };
}

function fullScaleFor(reading: Quantity<PressureUnit>): Quantity<PressureUnit> {
  const pressure = gaugePressure(reading.value, reading.unit);
  const [smallest, largest] = FULL_SCALES as [Quantity<PressureUnit>, Quantity<PressureUnit>];
  return pressure <= gaugePressure(smallest.value, smallest.unit) ? smallest : largest;
}

const within = (value: number, least: number, most: number): boolean => value >= least && value <= most;

const unusable = (field: string, value: number, right: string): Refused<"accuracy-unusable"> =>
  refused("accuracy-unusable", `The ${field} ${value} cannot be used: it is ${right}.`);

/** The root of the sum of squares: independent errors add up like this. */
export function together(...parts: readonly number[]): number {
  return Math.sqrt(parts.reduce((sum, part) => sum + part * part, 0));
}
