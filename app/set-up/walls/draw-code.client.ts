"use client";

const LETTERS = "abcdefghjkmnpqrstuvwxyz23456789";
/** The largest multiple of the alphabet's length in a byte: what lies over it is drawn again, so that no letter is likelier. */
const FAIR = 256 - (256 % LETTERS.length);

/** A wall's code, drawn here: 32 letters of 31 are some 158 bits. Works on plain http as well. */
export function drawCode(): string {
  let code = "";
  while (code.length < 32) {
    for (const byte of crypto.getRandomValues(new Uint8Array(48))) {
      if (byte < FAIR && code.length < 32) code += LETTERS[byte % LETTERS.length];
    }
  }
  return code;
}
