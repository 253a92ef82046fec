import {
  type Celsius,
  molPerCubicMetre,
  type PascalAbsolute,
  type PascalGauge,
  pascalGauge,
} from "@/lib/units/measure";
import { kelvinOf } from "@/lib/units/temperature";
import { type Calculated, refused, type Uncertainty } from "./calculated";
import { ambientWithinRange, temperatureWithinRange } from "./cylinder-contents-checks";
import { at } from "./equation-of-state/isotherms";
import { NITROUS_OXIDE } from "./equation-of-state/nitrous-oxide";
import { saturationOf } from "./equation-of-state/saturation";

/** How a known filling stands at a temperature. */
export interface Fill {
  readonly state: "gas" | "two-phase" | "liquid-full" | "supercritical";
  readonly pressure: PascalGauge;
  /** Of the cylinder's volume and of the mass in it. */
  readonly liquidVolumeFraction: number;
  readonly liquidMassFraction: number;
}

/** kg per litre of water: well over the fullest cylinder, and at 60 C still inside the 50 MPa that the equation is valid to. */
const DENSEST_FILL = 0.85;
/** By the paper (from memory). */
const VAPOR_PRESSURE_ERROR = 0.002;
const DENSITY_ERROR = 0.001;

/**
 * State and pressure of a cylinder whose filling is known: kg of nitrous oxide for each litre of water capacity.
 *
 * in        filling ratio in kg/L (0.67 to 0.75 when full), temperature
 * out       gauge pressure; what share is liquid. A full cylinder becomes "liquid-full" as it warms (a ratio of 0.75 at 24.2 C), and from
 *           there its pressure rises by 3 to 5 bar for each degree
 * valid     -20 to 60 C, ratio up to 0.85 kg/L
 * error     0.2 % in the two-phase state; liquid-full 0.3 to 0.6 bar
 * not for   deciding that a warm cylinder is safe
 * source    Lemmon and Span 2006
 */
export function stateOfFill(
  fillingRatio: number,
  temperature: Celsius,
  ambient?: PascalAbsolute,
): Calculated<Fill, "filling-unusable" | "temperature-out-of-range" | "ambient-out-of-range"> {
  if (!(fillingRatio > 0 && fillingRatio <= DENSEST_FILL))
    return refused(
      "filling-unusable",
      `A filling ratio of ${fillingRatio} kg/L cannot be: above 0 and up to ${DENSEST_FILL}; a full cylinder has 0.67 to 0.75.`,
    );
  const cold = temperatureWithinRange(temperature);
  if (cold) return cold;
  const outside = ambientWithinRange(ambient);
  if (typeof outside === "object") return outside;
  return {
    ok: true,
    value: fillAt(fillingRatio, temperature, outside),
    method: "equation of state at the known density",
    uncertainty: spread(fillingRatio, temperature, outside),
    source: NITROUS_OXIDE.source,
  };
}

/** Of the pressure: the equation's error in density, or in vapor pressure where both phases are there. */
function spread(fillingRatio: number, temperature: Celsius, ambient: PascalAbsolute): Uncertainty {
  const { pressure } = fillAt(fillingRatio, temperature, ambient);
  const error = VAPOR_PRESSURE_ERROR * (pressure + ambient);
  const thinner = fillAt(fillingRatio * (1 - DENSITY_ERROR), temperature, ambient).pressure;
  const denser = fillAt(fillingRatio * (1 + DENSITY_ERROR), temperature, ambient).pressure;
  return {
    low: Math.min(pressure - error, thinner),
    high: Math.max(pressure + error, denser),
    because: "of the pressure in Pa: equation ± 0.2 % in vapor pressure, ± 0.1 % in density",
  };
}

function fillAt(fillingRatio: number, temperature: Celsius, ambient: PascalAbsolute): Fill {
  const isotherm = at(NITROUS_OXIDE, kelvinOf(temperature));
  const density = molPerCubicMetre((fillingRatio / NITROUS_OXIDE.molarMass) * 1e6);
  const saturation = saturationOf(isotherm);
  if (saturation && density > saturation.vapor && density < saturation.liquid) {
    const { liquid, vapor } = saturation;
    const volume = (density - vapor) / (liquid - vapor);
    return {
      state: "two-phase",
      pressure: pascalGauge(saturation.pressure - ambient),
      liquidVolumeFraction: volume,
      liquidMassFraction: (volume * liquid) / density,
    };
  }
  const pressure = pascalGauge(isotherm.pressure(density) - ambient);
  if (saturation === null) return { state: "supercritical", pressure, liquidVolumeFraction: 0, liquidMassFraction: 0 };
  return density >= saturation.liquid
    ? { state: "liquid-full", pressure, liquidVolumeFraction: 1, liquidMassFraction: 1 }
    : { state: "gas", pressure, liquidVolumeFraction: 0, liquidMassFraction: 0 };
}
