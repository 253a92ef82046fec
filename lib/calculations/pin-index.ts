import { type Calculated, refused } from "./calculated";

export const PIN_GASES = [
  "oxygen",
  "nitrous-oxide",
  "air",
  "carbon-dioxide",
  "oxygen-carbon-dioxide",
  "helium-oxygen",
  "nitrogen",
  "oxygen-nitrous-oxide",
] as const;
export type PinGas = (typeof PIN_GASES)[number];

/**
 * Holes of the valve and pins of the yoke, counted along the arc. Carbon dioxide: also its mixtures with oxygen above 7 % (some texts
 * say 7.5 %); below that 2-6. Helium with oxygen up to 80 % helium. Oxygen with nitrous oxide in equal parts has one hole in the middle.
 * Source: ISO 407 and CGA V-1, positions as given on the public page "Pin Index Safety System" (Wikipedia).
 */
export const PIN_POSITIONS: Readonly<Record<PinGas, readonly number[]>> = {
  oxygen: [2, 5],
  "nitrous-oxide": [3, 5],
  air: [1, 5],
  "carbon-dioxide": [1, 6],
  "oxygen-carbon-dioxide": [2, 6],
  "helium-oxygen": [2, 4],
  nitrogen: [1, 4],
  "oxygen-nitrous-oxide": [7],
};

/**
 * The pin index of a gas, as label and yoke carry it: "2-5".
 *
 * refuses   a gas that has none here
 * not for   telling what is in a cylinder: the label does that. A pin can be broken off, a second washer can hide a wrong fit
 * source    ISO 407, CGA V-1 (see `PIN_POSITIONS`)
 */
export function pinIndex(gas: string): Calculated<string, "unknown-gas"> {
  const known = PIN_GASES.find((name) => name === gas);
  if (!known) return refused("unknown-gas", `"${gas}" has no pin index here. Choose one of: ${PIN_GASES.join(", ")}.`);
  return {
    ok: true,
    value: PIN_POSITIONS[known].join("-"),
    method: "table of pin positions",
    uncertainty: null,
    source: "ISO 407 and CGA V-1, by a public page (secondary)",
  };
}
