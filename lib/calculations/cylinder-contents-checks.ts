import { type Litre, type PascalAbsolute, type PascalGauge, pascalAbsolute } from "@/lib/units/measure";
import { gaugePressure, gaugePressureIn, type PressureUnit } from "@/lib/units/pressure";
import type { Quantity } from "@/lib/units/quantity";
import { type Refused, refused } from "./calculated";
import { ATMOSPHERE } from "./reference-conditions";

/** 300 bar: the highest filling pressure of medical cylinders, with room for a warm one. */
const HIGHEST = gaugePressure(300, "bar");
/** A cylinder's gas in any building and outside of it; the equations hold far beyond. */
export const COLDEST_C = -20;
export const HOTTEST_C = 60;
/** From a hospital at 5,500 m to the highest barometer: 50 to 110 kPa. */
const LEAST_AMBIENT = 50_000;
const MOST_AMBIENT = 110_000;
/** No cylinder or bundle that stands at a workstation or in its store holds more water. */
const LARGEST_L = 1_000;

/** A gauge reading inside the range of the formulas, or why not. */
export function gaugeWithinRange(
  reading: Quantity<PressureUnit>,
): PascalGauge | Refused<"pressure-below-zero" | "pressure-out-of-range"> {
  const { value, unit } = reading;
  if (!Number.isFinite(value))
    return refused("pressure-out-of-range", `The pressure ${value} ${unit} is not a number.`);
  const pressure = gaugePressure(value, unit);
  if (pressure < 0)
    return refused(
      "pressure-below-zero",
      `The pressure ${value} ${unit} is below zero: a gauge shows 0 ${unit} when the cylinder is empty.`,
    );
  // A reading of 300 bar in psi is 300.000000001 bar by the arithmetic.
  if (pressure > HIGHEST * (1 + 1e-9))
    return refused(
      "pressure-out-of-range",
      `The pressure ${value} ${unit} is above ${Math.round(gaugePressureIn(HIGHEST, unit))} ${unit} (300 bar), beyond any medical cylinder.`,
    );
  return pressure;
}

export function temperatureWithinRange(
  value: number,
  field = "temperature",
): Refused<"temperature-out-of-range"> | null {
  if (value >= COLDEST_C && value <= HOTTEST_C) return null;
  return refused(
    "temperature-out-of-range",
    `The ${field} ${value} C is outside of ${COLDEST_C} to ${HOTTEST_C} C, where these figures hold.`,
  );
}

export function ambientWithinRange(
  ambient: PascalAbsolute | undefined = ATMOSPHERE,
): PascalAbsolute | Refused<"ambient-out-of-range"> {
  if (ambient >= LEAST_AMBIENT && ambient <= MOST_AMBIENT) return ambient;
  return refused(
    "ambient-out-of-range",
    `The ambient pressure ${ambient / 1_000} kPa is outside of ${LEAST_AMBIENT / 1_000} to ${MOST_AMBIENT / 1_000} kPa.`,
  );
}

export function capacityUsable(waterCapacity: Litre | undefined): Litre | Refused<"water-capacity-unusable"> {
  if (waterCapacity !== undefined && waterCapacity > 0 && waterCapacity <= LARGEST_L) return waterCapacity;
  const what = waterCapacity === undefined ? "is missing" : `${waterCapacity} L cannot be`;
  return refused(
    "water-capacity-unusable",
    `The water capacity ${what}: it is stamped on the cylinder, above 0 and up to ${LARGEST_L} L (an E cylinder holds 4.7 to 4.8 L).`,
  );
}

/** Above vacuum from above ambient. */
export function absolute(gauge: PascalGauge, ambient: PascalAbsolute): PascalAbsolute {
  return pascalAbsolute(gauge + ambient);
}
