/** The 43 characters in the order of their values. Source: HIBC standard, table of check characters (from memory). */
export const HIBC_ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-. $/+%";

/**
 * The check character of a HIBC string, modulo 43; null when it holds a character that HIBC does not have.
 *
 * in        the string before its check character, the leading + included
 * source    HIBC data-structure documentation in open barcode libraries
 */
export function hibcCheckCharacter(text: string): string | null {
  let sum = 0;
  for (const character of text) {
    const value = HIBC_ALPHABET.indexOf(character);
    if (value < 0) return null;
    sum += value;
  }
  return HIBC_ALPHABET[sum % HIBC_ALPHABET.length] ?? null;
}
