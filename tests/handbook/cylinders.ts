import type { CylinderGas } from "@/lib/calculations/gases";
import { type Litre, litre } from "@/lib/units/measure";
import type { PressureUnit } from "@/lib/units/pressure";
import { type Quantity, quantity } from "@/lib/units/quantity";

/**
 * Published cylinder values, each with its source. The code is held against them; it never reads them.
 */

interface CylinderRating {
  readonly gas: CylinderGas;
  readonly rated: Litre;
  readonly ratedPressure: Quantity<PressureUnit>;
}

/** Dorsch and Dorsch, Understanding Anesthesia Equipment, table of typical cylinders; Miller's Anesthesia (both from memory). */
export const US_E_OXYGEN: CylinderRating = { gas: "oxygen", rated: litre(660), ratedPressure: quantity(1900, "psi") };
export const US_E_AIR: CylinderRating = { gas: "air", rated: litre(625), ratedPressure: quantity(1900, "psi") };
export const US_E_NITROUS_OXIDE: CylinderRating = {
  gas: "nitrous-oxide",
  rated: litre(1590),
  ratedPressure: quantity(745, "psi"),
};
export const US_D_OXYGEN: CylinderRating = { gas: "oxygen", rated: litre(400), ratedPressure: quantity(1900, "psi") };
/** UK medical-gas data sheets; Al-Shaikh and Stacey, Essentials of Anaesthetic Equipment (from memory). */
export const UK_E_OXYGEN: CylinderRating = { gas: "oxygen", rated: litre(680), ratedPressure: quantity(137, "bar") };
export const UK_D_OXYGEN: CylinderRating = { gas: "oxygen", rated: litre(340), ratedPressure: quantity(137, "bar") };

/**
 * Contents of 4.8 L of oxygen at 21.1 C by the reference equation of state, delivered at one atmosphere.
 * Source: Schmidt and Wagner 1985, computed. The proportion must stay within the error that its own description states.
 */
export const REAL_GAS_4_8_L = [
  { psi: 1900, litres: 660.2 },
  { psi: 1000, litres: 340 },
  { psi: 500, litres: 167.1 },
  { psi: 200, litres: 66.0 },
] as const;
