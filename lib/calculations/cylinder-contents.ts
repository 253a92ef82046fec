import type { Celsius, Litre, PascalAbsolute } from "@/lib/units/measure";
import type { PressureUnit } from "@/lib/units/pressure";
import type { Quantity } from "@/lib/units/quantity";
import type { Calculated } from "./calculated";
import { contentsByEquation } from "./cylinder-contents-by-equation";
import { contentsByFactor, contentsByProportion } from "./cylinder-contents-by-rule";
import type { CylinderGas } from "./gases";
import type { Reference } from "./reference-conditions";

export type ContentsMethod =
  | { readonly kind: "equation-of-state" }
  /** Boyle's law from the rating of the cylinder. */
  | { readonly kind: "proportion"; readonly rated: Litre; readonly ratedPressure: Quantity<PressureUnit> }
  /** The tank factor of respiratory care, litres for each psi. */
  | { readonly kind: "factor"; readonly litresPerPsi: number };

/** How well the inputs are known; absent ones take the defaults of cylinder-contents-accuracy.ts. */
export interface ContentsAccuracy {
  /** Gauge accuracy class: percent of its full scale. */
  readonly gaugeClass: number;
  readonly gaugeFullScale: Quantity<PressureUnit>;
  /** The gas may be that much warmer or colder than told. */
  readonly temperatureK: number;
  readonly waterCapacityPercent: number;
}

export interface ContentsRequest {
  readonly gas: CylinderGas;
  /** Gauge pressure, read with the valve open. */
  readonly pressure: Quantity<PressureUnit>;
  /** Of the gas: that of the room, if the cylinder has stood there and has not just given a high flow. */
  readonly temperature: Celsius;
  /** Needed by the equation of state alone: the proportion and the factor carry it in their rating. */
  readonly waterCapacity?: Litre;
  readonly reference: Reference;
  readonly method: ContentsMethod;
  /** Of the place; one standard atmosphere if absent. */
  readonly ambient?: PascalAbsolute;
  readonly accuracy?: Partial<ContentsAccuracy>;
}

export type ContentsRefusal =
  | "pressure-below-zero"
  | "pressure-out-of-range"
  | "temperature-out-of-range"
  | "ambient-out-of-range"
  | "water-capacity-unusable"
  | "accuracy-unusable"
  | "rating-unusable"
  | "factor-unusable"
  | "not-for-nitrous-oxide"
  | "liquid-present";

/** What can be said while liquid remains: at least so much, the usable contents at the moment when the last liquid goes. */
export interface LiquidPresent {
  readonly atLeastL: Litre;
}

export type Contents = Calculated<Litre, ContentsRefusal, LiquidPresent>;

/**
 * Usable litres in a cylinder: what flows out until the gauge shows zero. The gas that then remains at ambient pressure is not counted.
 *
 * in        gauge pressure, temperature of the gas, water capacity, and the method, which the answer names
 * out       litres at 70 F and one atmosphere, or at 15 C and 101.325 kPa (proportion and factor: at the reference of their rating)
 * valid     0 to 300 bar gauge, -20 to 60 C, ambient 50 to 110 kPa
 * error     in the answer's `uncertainty`, for each method its own
 * refuses   anything outside of that; nitrous oxide by proportion or factor; nitrous oxide while liquid remains
 *           ("liquid-present", with a floor)
 * not for   cylinders that hold another gas or a mixture; deciding alone whether a workstation is ready
 * source    with each method: cylinder-contents-by-equation.ts, cylinder-contents-by-rule.ts
 */
export function cylinderContents(request: ContentsRequest): Contents {
  const { method } = request;
  switch (method.kind) {
    case "equation-of-state":
      return contentsByEquation(request);
    case "proportion":
      return contentsByProportion(request, method);
    case "factor":
      return contentsByFactor(request, method);
  }
}
