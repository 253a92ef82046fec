import {
  type Celsius,
  type Kilogram,
  kilogram,
  type Litre,
  litre,
  type PascalAbsolute,
  type PascalGauge,
  pascalGauge,
} from "@/lib/units/measure";
import { kelvinOf } from "@/lib/units/temperature";
import { type Calculated, type Refused, refused } from "./calculated";
import { ambientWithinRange, COLDEST_C, capacityUsable } from "./cylinder-contents-checks";
import { stateOn } from "./equation-of-state/density";
import { at } from "./equation-of-state/isotherms";
import { NITROUS_OXIDE } from "./equation-of-state/nitrous-oxide";
import { type Saturation, saturationOf } from "./equation-of-state/saturation";
import { litresOf, litresPerMol, type Reference } from "./reference-conditions";

/** Above it there is no liquid, and no saturation pressure. */
export const CRITICAL_C = 36.37;

/** Of the vapor pressure, by the paper (from memory). */
const VAPOR_PRESSURE_ERROR = 0.002;
/** Of the saturated vapor: the published estimate and the older evaluation differ from the equation by so much, more near the critical point. */
const VAPOR_DENSITY_ERROR = 0.01;
/** Of the scale, on each of the two weighings (common practice, no source). */
const SCALE = kilogram(0.01);

type SaturationRefusal = "temperature-out-of-range" | "above-critical" | "ambient-out-of-range";

/**
 * The pressure that a gauge shows while liquid nitrous oxide remains, whatever the contents.
 *
 * in        temperature of the gas; ambient pressure (one standard atmosphere if absent)
 * out       Pa above ambient: 718 psi at 20 C, 900 at 30 C
 * valid     -20 C to the critical temperature, 36.37 C
 * error     0.2 % of the equation; handbooks print 745 psi for "room temperature", an older evaluation 0.16 % more
 * source    Lemmon and Span 2006, balance of liquid and vapor
 */
export function saturationPressure(
  temperature: Celsius,
  ambient?: PascalAbsolute,
): Calculated<PascalGauge, SaturationRefusal> {
  const saturation = saturationAt(temperature);
  if ("ok" in saturation) return saturation;
  const outside = ambientWithinRange(ambient);
  if (typeof outside === "object") return outside;
  const value = saturation.pressure - outside;
  const error = VAPOR_PRESSURE_ERROR * saturation.pressure;
  return {
    ok: true,
    value: pascalGauge(value),
    method: "balance of liquid and vapor by the equation of state",
    uncertainty: { low: value - error, high: value + error, because: "equation ± 0.2 % in vapor pressure" },
    source: NITROUS_OXIDE.source,
  };
}

/** Liquid and vapor at a temperature, or why there are not both. */
export function saturationAt(
  temperature: Celsius,
): Saturation | Refused<"temperature-out-of-range" | "above-critical"> {
  if (!(temperature >= COLDEST_C))
    return refused(
      "temperature-out-of-range",
      `The temperature ${temperature} C is below ${COLDEST_C} C, where these figures hold down to.`,
    );
  return (
    saturationOf(at(NITROUS_OXIDE, kelvinOf(temperature))) ??
    refused(
      "above-critical",
      `At ${temperature} C nitrous oxide has no liquid: its critical temperature is ${CRITICAL_C} C, and the pressure follows the contents.`,
    )
  );
}

/** What a cylinder holds at the moment when the last liquid goes. */
export interface LastLiquid {
  readonly total: Litre;
  /** What of it flows out until the gauge shows zero. */
  readonly usable: Litre;
}

/**
 * What a cylinder of nitrous oxide holds when the last of its liquid has turned to vapor: from there the gauge begins to fall.
 *
 *   total = rho''(T) x water capacity x molar volume at the reference;   usable = total less what stays at ambient pressure
 *
 * out       litres at the reference: 414 in all and 409 usable in 4.8 L at 20 C
 * valid     -20 to 36.37 C
 * error     1 %; more within a degree of the critical temperature, where the vapor's density rises steeply: 0.1 K there is 2 %
 * source    Lemmon and Span 2006
 */
export function lastLiquidContents(
  waterCapacity: Litre,
  temperature: Celsius,
  reference: Reference,
  ambient?: PascalAbsolute,
): Calculated<LastLiquid, SaturationRefusal | "water-capacity-unusable"> {
  const capacity = capacityUsable(waterCapacity);
  if (typeof capacity === "object") return capacity;
  const saturation = saturationAt(temperature);
  if ("ok" in saturation) return saturation;
  const outside = ambientWithinRange(ambient);
  if (typeof outside === "object") return outside;
  const empty = stateOn(at(NITROUS_OXIDE, kelvinOf(temperature)), outside);
  const total = litresOf(NITROUS_OXIDE, saturation.vapor, capacity, reference);
  const left = empty.phase === "two-phase" ? total : litresOf(NITROUS_OXIDE, empty.density, capacity, reference);
  return {
    ok: true,
    value: { total, usable: litre(total - left) },
    method: "saturated vapor by the equation of state",
    uncertainty: {
      low: total * (1 - VAPOR_DENSITY_ERROR),
      high: total * (1 + VAPOR_DENSITY_ERROR),
      because: "density of the saturated vapor ± 1 %, of the total",
    },
    source: NITROUS_OXIDE.source,
  };
}

/**
 * Litres in a cylinder of nitrous oxide by its weight: the only way while liquid remains.
 *
 *   litres = (gross - tare) / molar mass x molar volume at the reference        (545.5 L/kg at 70 F, 533.9 at 15 C)
 *
 * in        gross and tare in kg, the tare as stamped, with the same fittings on the scale
 * out       litres in all, at the reference; about one litre for each litre of water stays in the cylinder at the end
 * error     the scale's, on both weighings: 10 g is 5.5 L
 * refuses   gross below tare: the scale, the tare or the fittings are wrong
 * source    Lemmon and Span 2006 for the molar volume. Textbooks also use 22.4 L/mol (509 L/kg): a litre at 0 C, 7 % fewer
 */
export function nitrousOxideByWeight(
  gross: Kilogram,
  tare: Kilogram,
  reference: Reference,
  scale: Kilogram = SCALE,
): Calculated<Litre, "weight-unusable" | "gross-below-tare"> {
  if (!(tare >= 0) || !(gross >= 0) || !(scale >= 0))
    return refused("weight-unusable", `A gross of ${gross} kg and a tare of ${tare} kg: neither can be below zero.`);
  if (gross < tare)
    return refused(
      "gross-below-tare",
      `The gross ${gross} kg is below the tare ${tare} kg: read the scale and the stamped tare again, with the same fittings on.`,
    );
  const perKilogram = (litresPerMol(NITROUS_OXIDE, reference) / NITROUS_OXIDE.molarMass) * 1_000;
  const value = (gross - tare) * perKilogram;
  const error = Math.SQRT2 * scale * perKilogram;
  return {
    ok: true,
    value: litre(value),
    method: "by weight",
    uncertainty: {
      low: Math.max(0, value - error),
      high: value + error,
      because: `scale ± ${scale} kg on each of the two weighings`,
    },
    source: NITROUS_OXIDE.source,
  };
}

/** What to say beside every nitrous oxide gauge that was read soon after a high flow. */
export const CHILLED_NOTE =
  "After a high flow the cylinder is colder than the room and its gauge reads low, also with liquid left. Let it rest before the reading counts.";
