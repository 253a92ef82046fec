import {
  type Kelvin,
  kelvin,
  type Litre,
  litre,
  type PascalAbsolute,
  type PascalGauge,
  pascalGauge,
} from "@/lib/units/measure";
import { kelvinOf } from "@/lib/units/temperature";
import type { Uncertainty } from "./calculated";
import { refused } from "./calculated";
import type { Contents, ContentsRequest } from "./cylinder-contents";
import { type Spread, spreadOf, together } from "./cylinder-contents-accuracy";
import {
  absolute,
  ambientWithinRange,
  capacityUsable,
  gaugeWithinRange,
  temperatureWithinRange,
} from "./cylinder-contents-checks";
import { stateOn } from "./equation-of-state/density";
import type { Fluid } from "./equation-of-state/fluid";
import { at } from "./equation-of-state/isotherms";
import { saturationOf } from "./equation-of-state/saturation";
import { FLUIDS } from "./gases";
import { liquidRemains } from "./nitrous-oxide-phase";
import { litresPerMol, type Reference } from "./reference-conditions";

/** Of density, by the papers (from memory). */
const EQUATION_ERROR = 0.001;
/** kg of nitrous oxide for each litre of water in the fullest cylinder: the filling ratio of temperate climates (UK, from memory). */
const FULLEST = 0.75;

/** Everything that the litres depend on. */
interface Case {
  readonly fluid: Fluid;
  readonly waterCapacity: Litre;
  readonly ambient: PascalAbsolute;
  readonly reference: Reference;
}

/**
 * Usable litres by the reference equation of state of the gas.
 *
 *   litres = (rho(p, T) - rho(p_ambient, T)) x water capacity x molar volume at the reference
 *
 * error     uncertainty: the gauge's class, the temperature and the water capacity, each moved by its accuracy through this same
 *           formula, and 0.1 % for the equation, added as root of the sum of squares
 * refuses   liquid nitrous oxide: its gauge shows the vapor pressure, whatever the contents. Only a floor is known, the usable contents
 *           at the moment when the last liquid goes. It also holds well above saturation: a cylinder that is full of liquid, or
 *           warmer than told, holds more than that
 * source    the equation of each gas, named in the answer
 */
export function contentsByEquation(request: ContentsRequest): Contents {
  const gauge = gaugeWithinRange(request.pressure);
  if (typeof gauge === "object") return gauge;
  const cold = temperatureWithinRange(request.temperature);
  if (cold) return cold;
  const ambient = ambientWithinRange(request.ambient);
  if (typeof ambient === "object") return ambient;
  const waterCapacity = capacityUsable(request.waterCapacity);
  if (typeof waterCapacity === "object") return waterCapacity;
  const spread = spreadOf(request.pressure, request.accuracy);
  if ("ok" in spread) return spread;
  const given: Case = { fluid: FLUIDS[request.gas], waterCapacity, ambient, reference: request.reference };
  const temperature = kelvinOf(request.temperature);
  const usable = usableLitres(given, gauge, temperature);
  if (usable === null) return { ...liquidPresent(request), atLeastL: lastLiquidUsable(given, temperature) };
  return {
    ok: true,
    value: litre(usable),
    method: "equation of state",
    uncertainty: uncertaintyOf(given, usable, gauge, temperature, spread),
    source: given.fluid.source,
  };
}

const liquidPresent = ({ pressure: { value, unit }, temperature }: ContentsRequest) =>
  refused(
    "liquid-present",
    `At ${value} ${unit} and ${temperature} C liquid nitrous oxide remains: the gauge shows its vapor pressure and not the contents. There is at least what is left when the last liquid goes; weigh the cylinder to know more.`,
  );

/** Null while liquid remains. */
function usableLitres(given: Case, gauge: PascalGauge, temperature: Kelvin): number | null {
  const pressure = absolute(gauge, given.ambient);
  if (liquidRemains(given.fluid, pressure, temperature)) return null;
  const isotherm = at(given.fluid, temperature);
  const full = stateOn(isotherm, pressure);
  const empty = stateOn(isotherm, given.ambient);
  if (full.phase === "two-phase" || empty.phase === "two-phase") return null;
  return inLitres(given, full.density - empty.density);
}

/** Usable litres of a saturated vapor that fills the cylinder. */
function lastLiquidUsable(given: Case, temperature: Kelvin): Litre {
  const isotherm = at(given.fluid, temperature);
  const saturation = saturationOf(isotherm);
  const empty = stateOn(isotherm, given.ambient);
  if (saturation === null || empty.phase === "two-phase") throw new Error("there is no liquid at this temperature");
  return litre(inLitres(given, saturation.vapor - empty.density));
}

const inLitres = ({ fluid, waterCapacity, reference }: Case, density: number): number =>
  (density / 1_000) * waterCapacity * litresPerMol(fluid, reference);

/** The ends of the answer: each input moved on its own, on the side that makes less, and on the one that makes more. */
function uncertaintyOf(
  given: Case,
  value: number,
  gauge: PascalGauge,
  temperature: Kelvin,
  { pressure, temperature: kelvins, waterCapacity, words }: Spread,
): Uncertainty {
  const lower = usableLitres(given, pascalGauge(Math.max(0, gauge - pressure)), temperature);
  const higher = usableLitres(given, pascalGauge(gauge + pressure), temperature);
  const warmer = usableLitres(given, gauge, kelvin(temperature + kelvins));
  const colder = usableLitres(given, gauge, kelvin(temperature - kelvins));
  const capacity = waterCapacity * value;
  const equation = EQUATION_ERROR * value;
  const less = together(value - (lower ?? value), value - (warmer ?? value), capacity, equation);
  const low = Math.max(0, value - less);
  if (higher === null || colder === null) {
    const full = inLitres(given, (FULLEST / given.fluid.molarMass) * 1e6) * (1 + waterCapacity);
    return { low, high: full, because: `${words}; within that, liquid may remain and the cylinder be full` };
  }
  const more = together(higher - value, colder - value, capacity, equation);
  return { low, high: value + more, because: `${words}, equation ± 0.1 %` };
}
