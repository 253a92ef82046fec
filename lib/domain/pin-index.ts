import { done, type Outcome, refused } from "@/lib/domain/outcome";
import type { Gas } from "@/lib/domain/vocabulary";
import { GAS_NAMES, lowerFirst } from "@/lib/domain/wording";

/**
 * The pin positions of small cylinder valves: two holes in the valve, two pins in the yoke, so that a wrong gas does not seat.
 * Source: ISO 407 and CGA V-1, positions as given on the public page "Pin Index Safety System" (Wikipedia).
 */
export const PIN_INDEX: Readonly<Record<Gas, readonly [number, number]>> = {
  oxygen: [2, 5],
  "nitrous-oxide": [3, 5],
  air: [1, 5],
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
