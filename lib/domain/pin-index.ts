import { PIN_POSITIONS } from "@/lib/calculations/pin-index";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import type { Gas } from "@/lib/domain/vocabulary";
import { GAS_NAMES, lowerFirst } from "@/lib/domain/wording";

/** The pin positions of the gases on an anesthesia workstation: two holes in the valve, two pins in the yoke, so that a wrong gas does not seat. */
export const PIN_INDEX: Readonly<Record<Gas, readonly number[]>> = {
  oxygen: PIN_POSITIONS.oxygen,
  "nitrous-oxide": PIN_POSITIONS["nitrous-oxide"],
  air: PIN_POSITIONS.air,
};

export const pinIndexText = (gas: Gas): string => PIN_INDEX[gas].join("-");

/** Would this cylinder seat on that yoke? Refused with both index positions named, as the label and the yoke carry them. */
export function fitsYoke(cylinderGas: Gas, yokeGas: Gas): Outcome<true, "does-not-fit"> {
  if (pinIndexText(cylinderGas) === pinIndexText(yokeGas)) return done(true);
  const cylinder = `${GAS_NAMES[cylinderGas]} cylinder (pin index ${pinIndexText(cylinderGas)})`;
  const yoke = `${lowerFirst(GAS_NAMES[yokeGas])} yoke (pin index ${pinIndexText(yokeGas)})`;
  const article = /^[aeio]/.test(yoke) ? "an" : "a";
  return refused(
    "does-not-fit",
    `${cylinder} does not fit ${article} ${yoke}. Choose a cylinder of ${lowerFirst(GAS_NAMES[yokeGas])}.`,
    "gas",
  );
}
