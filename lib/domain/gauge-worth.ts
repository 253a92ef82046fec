import { type Contents, cylinderContents } from "@/lib/calculations/cylinder-contents";
import type { Reference } from "@/lib/calculations/reference-conditions";
import type { FittedCylinder } from "@/lib/domain/evidence";
import type { SettingsPlace } from "@/lib/domain/rule";
import { endurance } from "@/lib/domain/rules/policy/endurance";
import { valuesOf } from "@/lib/domain/rules/settings";
import { celsius, litre } from "@/lib/units/measure";
import { isPressureUnit, type PressureUnit } from "@/lib/units/pressure";
import { type Quantity, valueIn } from "@/lib/units/quantity";

/** What a gauge reading says of the contents of a fitted cylinder, by the equation of state of its gas. */
export type GaugeWorth =
  | { readonly kind: "litres"; readonly litres: number; readonly low: number; readonly high: number }
  /** Liquid remains: the gauge tells a floor and nothing else. */
  | { readonly kind: "at-least"; readonly litres: number }
  | { readonly kind: "unknown"; readonly why: string };

/**
 * in        a gauge pressure read with the valve open; the cylinder; the site's temperature of the gas
 * out       usable litres with both ends, as the site's scheme counts them: US at 70 F and one atmosphere, ISO at 15 C
 * error     in `low` and `high`: gauge class, temperature and water capacity together
 * source    lib/calculations/cylinder-contents.ts
 */
export function gaugeWorth(reading: Quantity, cylinder: FittedCylinder, place: SettingsPlace): GaugeWorth {
  if (!isPressure(reading)) return { kind: "unknown", why: `${reading.unit} is not a pressure` };
  const { gasTemperature } = valuesOf(endurance, place);
  return worthOf(
    cylinderContents({
      gas: cylinder.gas,
      pressure: reading,
      temperature: celsius(valueIn(gasTemperature, "C") ?? 0),
      waterCapacity: litre(cylinder.waterCapacityL),
      reference: referenceOf(cylinder),
      method: { kind: "equation-of-state" },
    }),
  );
}

const isPressure = (reading: Quantity): reading is Quantity<PressureUnit> => isPressureUnit(reading.unit);

/** A cylinder is counted as the tables of its own scheme count it. */
export const referenceOf = ({ scheme }: Pick<FittedCylinder, "scheme">): Reference =>
  scheme === "US" ? "70F-1atm" : "15C";

function worthOf(contents: Contents): GaugeWorth {
  if (contents.ok) {
    const { value, uncertainty } = contents;
    return { kind: "litres", litres: value, low: uncertainty?.low ?? value, high: uncertainty?.high ?? value };
  }
  if (contents.refusal === "liquid-present" && contents.atLeastL !== undefined)
    return { kind: "at-least", litres: contents.atLeastL };
  return { kind: "unknown", why: contents.message };
}
