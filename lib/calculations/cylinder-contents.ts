import { isAbove, type Quantity, valueIn } from "@/lib/units/quantity";

/** What the handbook proportion needs to know of a cylinder. */
export interface CylinderRating {
  readonly gas: "oxygen" | "air" | "nitrous-oxide";
  /** Litres a full cylinder delivers, at 21.1 C and one atmosphere in the US tables, 15 C in the ISO ones. */
  readonly ratedContentsL: number;
  /** The gauge pressure of a full cylinder. */
  readonly ratedPressure: Quantity;
}

export type ContentsRefusal =
  | "not-a-pressure"
  | "pressure-below-zero"
  | "pressure-above-plausible"
  | "rating-unusable"
  | "liquid-present";

export type CylinderContents =
  | { readonly ok: true; readonly litres: number; readonly method: "handbook proportion" }
  | { readonly ok: false; readonly refusal: ContentsRefusal };

/** A filled cylinder in the sun stays well below this share of its rating; above it the reading or the rating is wrong. */
const PLAUSIBLE_SHARE = 1.5;

const refuse = (refusal: ContentsRefusal): CylinderContents => ({ ok: false, refusal });

/**
 * Usable litres in a cylinder of compressed gas, by the handbook proportion.
 *
 *   litres = rated contents x gauge pressure / rated pressure        (Boyle's law)
 *
 * in        gauge pressure, read with the valve open; the cylinder's rating
 * out       litres that flow out until the gauge shows zero; the gas that remains at ambient pressure is not counted
 * error     the law ignores compressibility. For oxygen rated 660 L at 1,900 psi in 4.8 L, against the reference equation of state
 *           (Schmidt and Wagner 1985) at 21.1 C: equal at 1,900 psi, 2 % high at 1,000 psi, 4 % high at 500 psi, 5 % high at
 *           200 psi. A cold or hot cylinder reads about 0.5 % per degree Celsius low or high on top of that
 * refuses   a reading below zero or over 1.5 times the rated pressure, and nitrous oxide: while liquid remains its gauge shows the
 *           vapour pressure and not the contents, and once it is gone the fall is not linear
 * source    Dorsch and Dorsch, Understanding Anesthesia Equipment, table of typical cylinders (from memory); Morgan and Mikhail
 */
export function cylinderContents(reading: Quantity, rating: CylinderRating): CylinderContents {
  if (rating.gas === "nitrous-oxide") return refuse("liquid-present");
  if (!(rating.ratedContentsL > 0 && rating.ratedPressure.value > 0)) return refuse("rating-unusable");
  const pressure = valueIn(reading, rating.ratedPressure.unit);
  if (pressure === null) return refuse("not-a-pressure");
  if (pressure < 0) return refuse("pressure-below-zero");
  if (isAbove(reading, { ...rating.ratedPressure, value: PLAUSIBLE_SHARE * rating.ratedPressure.value })) {
    return refuse("pressure-above-plausible");
  }
  return {
    ok: true,
    litres: (rating.ratedContentsL * pressure) / rating.ratedPressure.value,
    method: "handbook proportion",
  };
}
