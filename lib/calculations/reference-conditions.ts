import { celsius, type Kelvin, type Litre, litre, type MolPerCubicMetre, pascalAbsolute } from "@/lib/units/measure";
import { kelvinOf, temperatureIn } from "@/lib/units/temperature";
import { densityOn, stateOn } from "./equation-of-state/density";
import type { Fluid } from "./equation-of-state/fluid";
import { at } from "./equation-of-state/isotherms";

/**
 * What "a litre of gas" means: US cylinder tables count at 70 F and one atmosphere, ISO ones at 15 C and 101.325 kPa (a litre of the
 * first is 2 % less gas).
 */
export const REFERENCES = ["70F-1atm", "15C"] as const;
export type Reference = (typeof REFERENCES)[number];

/** One standard atmosphere, exact by definition. */
export const ATMOSPHERE = pascalAbsolute(101_325);

const KELVIN: Record<Reference, Kelvin> = {
  "70F-1atm": kelvinOf(celsius(temperatureIn(70, "F", "C"))),
  "15C": kelvinOf(celsius(15)),
};

export const REFERENCE_WORDS: Record<Reference, string> = {
  "70F-1atm": "70 F and one atmosphere",
  "15C": "15 C and 101.325 kPa",
};

const volumes = new Map<Fluid, Record<Reference, number>>();

/**
 * Litres that one mole fills at the reference, by the fluid's own equation: oxygen 24.129, air 24.138, nitrous oxide 24.009 at 70 F.
 * The ideal gas would have 24.145 for all three.
 */
export function litresPerMol(fluid: Fluid, reference: Reference): number {
  const known = volumes.get(fluid);
  if (known) return known[reference];
  const made = { "70F-1atm": molarVolume(fluid, "70F-1atm"), "15C": molarVolume(fluid, "15C") };
  volumes.set(fluid, made);
  return made[reference];
}

function molarVolume(fluid: Fluid, reference: Reference): number {
  const isotherm = at(fluid, KELVIN[reference]);
  const state = stateOn(isotherm, ATMOSPHERE);
  return 1_000 / (state.phase === "two-phase" ? densityOn(isotherm, ATMOSPHERE) : state.density);
}

/** A density, filling a volume, as litres of gas at the reference. */
export function litresOf(fluid: Fluid, density: MolPerCubicMetre, volume: Litre, reference: Reference): Litre {
  return litre((density / 1_000) * volume * litresPerMol(fluid, reference));
}
