import { predefinedLength } from "./application-identifiers";
import { GROUP_SEPARATOR } from "./split-string";

/**
 * The string that a barcode carries for these elements: a separator after each value that has no predefined length, except the last.
 *
 * source    GS1 General Specifications 7.8 (from memory)
 */
export function buildElementString(elements: readonly { readonly ai: string; readonly value: string }[]): string {
  return elements
    .map(({ ai, value }, index) => {
      const closed = predefinedLength(ai.slice(0, 2)) !== null || index === elements.length - 1;
      return `${ai}${value}${closed ? "" : GROUP_SEPARATOR}`;
    })
    .join("");
}
