import {
  type Hour,
  hour,
  type Kilogram,
  type LitrePer100Gram,
  litrePer100Gram,
  type MillilitrePerMinute,
  millilitrePerMinute,
  type Percent,
} from "@/lib/units/measure";
import { type Calculated, type Refused, refused } from "./calculated";
import { outOfRange } from "./within";

/** Volume of a mole of ideal gas, L/mol: 20 C and 0 C, both at one atmosphere. */
const MOLAR_LITRES = { "20C-1atm": 24.055, "0C-1atm": 22.414 } as const;
export type GasReference = keyof typeof MOLAR_LITRES;

/** Molar masses, g/mol (IUPAC standard atomic weights, from memory). */
const CARBON_DIOXIDE = 44.01;
const CALCIUM_HYDROXIDE = 74.093;

/** Oxygen uptake at rest and respiratory quotient: Moody 2018 (abstract); Feldman, Lo, Hendrickx 2020 (abstract). */
const OXYGEN_ML_PER_KG_MIN = 3.5;
const RESPIRATORY_QUOTIENT = 0.8;

/**
 * Carbon dioxide production from body weight.
 *
 *   VCO2 = weight x 3.5 mL/kg/min x 0.8
 *
 * in        weight (kg)
 * out       mL/min
 * validity  an adult at rest; children make more per kilogram, anesthesia and cold lower it
 * error     about a quarter either way (test loads in published studies are 160 to 300 mL/min); no source for the figure
 * refuses   a weight outside 1 to 400 kg
 * source    Moody 2018 (3.5 mL/kg/min); Feldman, Lo, Hendrickx 2020 (quotient 0.8)
 */
export function carbonDioxideFromWeight(weight: Kilogram): Calculated<MillilitrePerMinute, "out-of-range"> {
  const wrong = outOfRange([{ name: "The weight", value: weight, unit: "kg", from: 1, to: 400 }]);
  if (wrong) return wrong;
  const value = millilitrePerMinute(weight * OXYGEN_ML_PER_KG_MIN * RESPIRATORY_QUOTIENT);
  return {
    ok: true,
    value,
    method: "weight x oxygen uptake at rest x respiratory quotient",
    uncertainty: { low: 0.75 * value, high: 1.25 * value, because: "people differ; common practice, no source" },
    source: "Moody 2018 (abstract), Feldman, Lo, Hendrickx 2020 (abstract)",
  };
}

/**
 * Capacity from an uptake by weight, as a pharmacopoeia states it.
 *
 *   L/100 g = percent / 44.01 g/mol x molar volume
 *
 * in        uptake (percent of the weight), reference of the gas volume
 * out       L/100 g; the minimum of USP 35 (19.0 %) is 10.4 at 20 C
 * error     carbon dioxide as an ideal gas, under 1 %
 * refuses   less than 0 or more than 100 %
 * source    USP 35, Soda Lime monograph, for the minimum; the conversion is the ideal gas law
 */
export function capacityFromUptake(
  uptake: Percent,
  reference: GasReference,
): Calculated<LitrePer100Gram, "out-of-range"> {
  const wrong = outOfRange([{ name: "The uptake", value: uptake, unit: "% of weight", from: 0, to: 100 }]);
  if (wrong) return wrong;
  return exact(litrePer100Gram((uptake / CARBON_DIOXIDE) * MOLAR_LITRES[reference]), "uptake by weight, ideal gas");
}

/**
 * Capacity if every calcium hydroxide binds one carbon dioxide: the ceiling that practice does not reach.
 *
 *   L/100 g = percent lime / 74.093 g/mol x molar volume
 *
 * in        calcium hydroxide (percent of the weight), reference of the gas volume
 * out       L/100 g; 26 for 80 % at 20 C, where practice gives 10 to 15
 * refuses   less than 0 or more than 100 %
 * source    stoichiometry; Morgan and Mikhail state 26 L (from memory)
 */
export function capacityFromLime(lime: Percent, reference: GasReference): Calculated<LitrePer100Gram, "out-of-range"> {
  const wrong = outOfRange([{ name: "The calcium hydroxide", value: lime, unit: "% of weight", from: 0, to: 100 }]);
  if (wrong) return wrong;
  return exact(litrePer100Gram((lime / CALCIUM_HYDROXIDE) * MOLAR_LITRES[reference]), "stoichiometry, ideal gas");
}

/**
 * Life from the fraction of a canister used in an hour, as bench studies report it.
 *
 *   hours = 1 / fraction per hour
 *
 * in        fraction used in an hour (0.08 means 8 %)
 * out       hours
 * refuses   nothing used, or more than one canister a minute
 * source    the definition in the bench model of prepacked absorbers, J Clin Monit Comput 2018, doi 10.1007/s10877-017-0088-x
 */
export function lifeFromFractionalUse(perHour: number): Calculated<Hour, "out-of-range" | "no-consumption"> {
  const wrong: Refused<"out-of-range"> | null = outOfRange([
    { name: "The fraction used in an hour", value: perHour, unit: "", from: 0, to: 60 },
  ]);
  if (wrong) return wrong;
  if (perHour < 1e-9) return refused("no-consumption", "Nothing is used in an hour, so there is no life to tell.");
  return exact(hour(1 / perHour), "reciprocal of the fraction used in an hour");
}

function exact<Value>(value: Value, method: string) {
  return { ok: true, value, method, uncertainty: null, source: "definition" } as const;
}
