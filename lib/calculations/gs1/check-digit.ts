import { type Calculated, refused } from "@/lib/calculations/calculated";

export type CheckDigitRefusal = "not-digits";

const LONGEST = 80;

/**
 * The check digit of a GS1 key, modulo 10.
 *
 *   weights 3, 1, 3, 1 from the right; the digit that brings the sum to a multiple of ten
 *
 * in        the digits before the check digit
 * out       one digit
 * validity  GTIN, SSCC, GLN, GSRN and the other GS1 keys with a check digit, of any length
 * error     finds every single wrong digit; does not find two neighbours that changed places and differ by 5 (16 and 61)
 * refuses   anything but 1 to 80 digits
 * source    GS1 check-digit calculator pages; GS1 General Specifications 7.9 (from memory)
 */
export function gs1CheckDigit(digits: string): Calculated<string, CheckDigitRefusal> {
  if (!/^\d+$/.test(digits) || digits.length > LONGEST) {
    return refused(
      "not-digits",
      `"${shown(digits)}" is not a row of 1 to ${LONGEST} digits. Give the digits before the check digit.`,
    );
  }
  return {
    ok: true,
    value: checkDigitOf(digits),
    method: "modulo 10, weights 3 and 1 from the right",
    uncertainty: null,
    source: "GS1 check-digit pages; GS1 General Specifications 7.9 (from memory)",
  };
}

/** Of digits that are known to be digits. */
export function checkDigitOf(digits: string): string {
  let sum = 0;
  for (let place = 1; place <= digits.length; place += 1) {
    sum += Number(digits[digits.length - place]) * (place % 2 === 1 ? 3 : 1);
  }
  return String((10 - (sum % 10)) % 10);
}

/** Does the last digit check the ones before it? */
export function hasValidCheckDigit(digits: string): boolean {
  return digits.length > 1 && checkDigitOf(digits.slice(0, -1)) === digits.at(-1);
}

/** A piece of a code as a message can show it: short, and without control characters. */
export function shown(text: string): string {
  const printable = [...text]
    .map((character) => (character < " " || character === "\u007f" ? "␣" : character))
    .join("");
  return printable.length > 40 ? `${printable.slice(0, 40)}…` : printable;
}
