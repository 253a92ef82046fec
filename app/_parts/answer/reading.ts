import type { Unit } from "@/lib/units/quantity";

/** What a reading must be to be taken: the scale of the instrument, as the item's form says. */
export interface Scale {
  readonly unit: Unit;
  readonly least: number;
  readonly most: number;
  readonly decimals: number;
}

export type ReadReading =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly message: string };

const wrong = (message: string): ReadReading => ({ ok: false, message });

/**
 * The number a person typed, or what is wrong with it, by name. A comma is never guessed at: "20,9" is a decimal in half of the
 * world and a typing slip in the other half.
 */
export function readReading(text: string, scale: Scale): ReadReading {
  const typed = text.trim();
  if (typed === "") return wrong(`Enter the reading in ${scale.unit}.`);
  if (/^\d+,\d+$/.test(typed)) {
    return wrong(`“${typed}” has a decimal comma. Type a decimal point: ${typed.replace(",", ".")}.`);
  }
  if (/^[-−]/.test(typed)) return wrong(`“${typed}” is below zero. This reading is ${range(scale)}.`);
  if (!/^\d+(\.\d*)?$|^\.\d+$/.test(typed))
    return wrong(`“${typed}” is not a number. Type figures only, such as ${example(scale)}.`);
  const decimals = (typed.split(".")[1] ?? "").length;
  if (decimals > scale.decimals) return wrong(`“${typed}” has too many decimals. ${decimalsTaken(scale)}`);
  const value = Number(typed);
  if (value < scale.least || value > scale.most) {
    return wrong(`${grouped(typed)} ${scale.unit} cannot be right. This reading is ${range(scale)}.`);
  }
  return { ok: true, value };
}

function decimalsTaken({ decimals, unit }: Scale): string {
  if (decimals === 0) return `Type whole ${unit}.`;
  return decimals === 1 ? "One decimal is enough." : `${decimals} decimals are enough.`;
}

const range = ({ least, most, unit }: Scale): string =>
  `between ${grouped(String(least))} and ${grouped(String(most))} ${unit}`;

const example = ({ least, most, decimals }: Scale): string => ((least + most) / 2).toFixed(decimals);

/** Thousands separators for reading, never for typing: 1955 is shown as 1,955. Text that is no number stays as typed. */
export function grouped(text: string): string {
  const parts = /^(-?)(\d+)(\..*)?$/.exec(text);
  if (!parts) return text;
  const [, sign = "", whole = "", rest = ""] = parts;
  return sign + whole.replace(/\B(?=(\d{3})+(?!\d))/g, ",") + rest;
}

/** How finely a cylinder gauge can be read in that unit: to whole psi or kPa, to a tenth of a bar. */
export const gaugeDecimals = (unit: Unit): number => (unit === "bar" || unit === "inHg" ? 1 : 0);

/** One key of the number pad, pressed. Keeps what a person could have meant, and nothing that only looks like a number. */
export function pressKey(text: string, key: string): string {
  if (key === "back") return text.slice(0, -1);
  if (key === ".") return text.includes(".") ? text : `${text === "" ? "0" : text}.`;
  if (text === "0") return key;
  return text.length < 7 ? text + key : text;
}
