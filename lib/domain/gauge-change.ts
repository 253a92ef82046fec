import { compareReadings, type GaugeReading, type TwoReadings } from "@/lib/calculations/two-readings";
import type { FittedCylinder } from "@/lib/domain/evidence";
import { referenceOf } from "@/lib/domain/gauge-worth";
import type { SettingsPlace } from "@/lib/domain/rule";
import { endurance } from "@/lib/domain/rules/policy/endurance";
import { valuesOf } from "@/lib/domain/rules/settings";
import { numeral } from "@/lib/domain/wording";
import { celsius, litre } from "@/lib/units/measure";
import { isPressureUnit, type PressureUnit } from "@/lib/units/pressure";
import { type Quantity, valueIn } from "@/lib/units/quantity";
import type { Instant } from "@/lib/units/time";

interface Read {
  readonly reading: Quantity;
  readonly at: Instant;
}

/**
 * What became of a cylinder's contents between two readings: a sentence, or null where there is nothing to say.
 * Nobody measures the temperature of a cylinder: both are taken at the site's own, each off by as much as its rooms cool at night.
 */
export function gaugeChange(before: Read, now: Read, cylinder: FittedCylinder, place: SettingsPlace): string | null {
  const { gasTemperature, temperatureSwing } = valuesOf(endurance, place);
  const temperature = celsius(valueIn(gasTemperature, "C") ?? 0);
  const [first, second] = [readingOf(before, temperature), readingOf(now, temperature)];
  if (first === null || second === null) return null;
  const compared = compareReadings({
    gas: cylinder.gas,
    waterCapacity: litre(cylinder.waterCapacityL),
    reference: referenceOf(cylinder),
    first,
    second,
    accuracy: { temperatureK: valueIn(temperatureSwing, "C") ?? 0 },
  });
  return compared.ok ? sentence(compared.value, before.reading) : null;
}

function readingOf({ reading, at }: Read, temperature: GaugeReading["temperature"]): GaugeReading | null {
  return isPressureUnit(reading.unit) ? { pressure: reading as Quantity<PressureUnit>, temperature, at } : null;
}

function sentence({ verdict, lost, perHour }: TwoReadings, before: Quantity): string | null {
  const from = `${numeral(before.value)} ${before.unit}`;
  switch (verdict) {
    case "leak":
      return `Since ${from} it lost ${about(lost?.value)} L, more than gauge and temperature explain (${about(perHour?.value)} L/h): used, left open, or leaking.`;
    case "cold-night":
      return `The change since ${from} is what a colder or warmer room explains.`;
    case "gained":
      return `It holds more than at ${from}: is it another cylinder, or was one reading wrong?`;
    case "cannot-tell":
      return null;
  }
}

const about = (value: number | undefined): string => numeral(Math.round((value ?? 0) * 10) / 10);
