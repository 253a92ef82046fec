import {
  type Celsius,
  type Kelvin,
  type MolPerCubicMetre,
  type PascalAbsolute,
  type PascalGauge,
  pascalAbsolute,
  pascalGauge,
} from "@/lib/units/measure";
import type { PressureUnit } from "@/lib/units/pressure";
import type { Quantity } from "@/lib/units/quantity";
import { kelvinOf } from "@/lib/units/temperature";
import { type Calculated, refused } from "./calculated";
import { absolute, ambientWithinRange, gaugeWithinRange, temperatureWithinRange } from "./cylinder-contents-checks";
import { stateOn } from "./equation-of-state/density";
import type { Fluid } from "./equation-of-state/fluid";
import { at } from "./equation-of-state/isotherms";
import { saturationOf } from "./equation-of-state/saturation";
import { type CylinderGas, FLUIDS } from "./gases";
import { liquidRemains } from "./nitrous-oxide-phase";

export interface ClosedCylinderRequest {
  readonly gas: CylinderGas;
  readonly pressure: Quantity<PressureUnit>;
  readonly from: Celsius;
  readonly to: Celsius;
  readonly ambient?: PascalAbsolute;
}

export type ClosedCylinderRefusal =
  | "pressure-below-zero"
  | "pressure-out-of-range"
  | "temperature-out-of-range"
  | "ambient-out-of-range"
  | "liquid-present";

/** Of density at the same pressure, by the papers (from memory). */
const EQUATION_ERROR = 0.002;

/**
 * What the gauge of a closed cylinder shows at another temperature: the same gas in the same volume.
 *
 *   rho from (p1, T1);   p2 = p(rho, T2)
 *
 * in        gauge pressure at one temperature, the other temperature
 * out       gauge pressure there. Oxygen of 1,900 psi at 70 F moves by about 9 psi for each degree Celsius; the ideal gas would move by
 *           6.5. Below zero where an emptied cylinder grows cold: there is then less than ambient pressure inside
 * valid     -20 to 60 C, 0 to 300 bar at the first temperature
 * error     0.2 %; the stretch of the cylinder is left out (below 0.1 %)
 * nitrous oxide  vapor that is cooled below its dew point shows the saturation pressure. With liquid at the first temperature, a
 *           colder gauge shows the saturation pressure there; a warmer one is refused ("liquid-present"), for the last liquid may go on
 *           the way, or the liquid may fill the cylinder: ask `stateOfFill` with the weight
 * source    the equation of each gas
 */
export function closedCylinderPressure(
  request: ClosedCylinderRequest,
): Calculated<PascalGauge, ClosedCylinderRefusal, { readonly atLeastPa: PascalGauge }> {
  const gauge = gaugeWithinRange(request.pressure);
  if (typeof gauge === "object") return gauge;
  const outside = temperatureWithinRange(request.from, "first temperature");
  if (outside) return outside;
  const beyond = temperatureWithinRange(request.to, "second temperature");
  if (beyond) return beyond;
  const ambient = ambientWithinRange(request.ambient);
  if (typeof ambient === "object") return ambient;
  const fluid = FLUIDS[request.gas];
  const pressure = pressureAt(fluid, absolute(gauge, ambient), kelvinOf(request.from), kelvinOf(request.to));
  if (typeof pressure === "object")
    return {
      ...refused(
        "liquid-present",
        `At ${request.pressure.value} ${request.pressure.unit} and ${request.from} C liquid nitrous oxide remains, and how much decides what the gauge shows at ${request.to} C: weigh the cylinder.`,
      ),
      atLeastPa: pascalGauge(pressure.atLeast - ambient),
    };
  const value = pascalGauge(pressure - ambient);
  return {
    ok: true,
    value,
    method: "equation of state at constant density",
    uncertainty: {
      low: value - EQUATION_ERROR * pressure,
      high: value + EQUATION_ERROR * pressure,
      because: "equation ± 0.2 %; accuracy of the gauge and the temperatures left out",
    },
    source: fluid.source,
  };
}

interface LiquidUnknown {
  /** What saturated vapor alone would have at the second temperature: the least there can be. */
  readonly atLeast: PascalAbsolute;
}

function pressureAt(fluid: Fluid, pressure: PascalAbsolute, from: Kelvin, to: Kelvin): PascalAbsolute | LiquidUnknown {
  if (from === to) return pressure;
  if (liquidRemains(fluid, pressure, from)) return withLiquid(fluid, pressure, from, to);
  const state = stateOn(at(fluid, from), pressure);
  if (state.phase === "two-phase") return withLiquid(fluid, pressure, from, to);
  return ofDensity(fluid, state.density, to);
}

/** The pressure of a known density: at saturation if part of it condenses. */
function ofDensity(fluid: Fluid, density: MolPerCubicMetre, kelvin: Kelvin): PascalAbsolute {
  const isotherm = at(fluid, kelvin);
  const saturation = saturationOf(isotherm);
  if (saturation && density > saturation.vapor && density < saturation.liquid) return saturation.pressure;
  return isotherm.pressure(density);
}

/**
 * With liquid the density lies anywhere between saturated vapor and the densest liquid that this reading allows. Colder, both ends
 * are inside of the two-phase region there, and so is all between; warmer, they part.
 */
function withLiquid(fluid: Fluid, pressure: PascalAbsolute, from: Kelvin, to: Kelvin): PascalAbsolute | LiquidUnknown {
  const start = at(fluid, from);
  const saturation = saturationOf(start);
  if (saturation === null) throw new Error("there is no liquid at this temperature");
  const least = ofDensity(fluid, saturation.vapor, to);
  const full = stateOn(start, pascalAbsolute(Math.max(pressure, saturation.pressure * (1 + 1e-8))));
  const most = full.phase === "two-phase" ? least : ofDensity(fluid, full.density, to);
  return least === most ? least : { atLeast: least };
}
