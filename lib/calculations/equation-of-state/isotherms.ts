import type { Kelvin } from "@/lib/units/measure";
import type { Fluid } from "./fluid";
import { Isotherm } from "./helmholtz";

/** A department has a handful of room temperatures. More than this many and the oldest is worked out anew. */
const KEPT = 32;

const kept = new Map<Fluid, Map<number, Isotherm>>();

/** The fluid at that temperature, prepared once. Keeps temperatures only, never an answer for a pressure. */
export function at(fluid: Fluid, kelvin: Kelvin): Isotherm {
  let ofFluid = kept.get(fluid);
  if (!ofFluid) {
    ofFluid = new Map();
    kept.set(fluid, ofFluid);
  }
  const known = ofFluid.get(kelvin);
  if (known) return known;
  const made = new Isotherm(fluid, kelvin);
  if (ofFluid.size >= KEPT) ofFluid.delete(ofFluid.keys().next().value ?? kelvin);
  ofFluid.set(kelvin, made);
  return made;
}
