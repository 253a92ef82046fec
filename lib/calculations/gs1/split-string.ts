import { type Refused, refused } from "@/lib/calculations/calculated";
import { applicationIdentifier, identifierLength, predefinedLength } from "./application-identifiers";
import { shown } from "./check-digit";

/** ASCII 29, as scanners send the separator FNC1. */
export const GROUP_SEPARATOR = "\u001d";

export type SplitRefusal = "empty" | "not-an-element-string";

/** An identifier and what follows it, not yet judged. */
export interface RawElement {
  readonly ai: string;
  readonly value: string;
  /** Could the value have swallowed what should follow? Not if its length is given, nor if a person wrote brackets. */
  readonly openEnded: boolean;
}

/** Symbology identifiers of GS1 barcodes; others carry no element string. */
const GS1_SYMBOLOGIES = ["]C1", "]d2", "]Q3", "]e0", "]J1"];

type Split = { readonly ok: true; readonly elements: readonly RawElement[] } | Refused<SplitRefusal>;

/**
 * The elements of a scanned string (separators as ASCII 29, or as the symbol that stands for it) or of one pasted with brackets.
 * A symbology identifier and separators at either end are taken off.
 *
 * source    GS1 General Specifications 7.8 (from memory); symbology identifiers and separators in public barcode documentation
 */
export function splitElementString(given: string): Split {
  const text = given.trim().replaceAll("␝", GROUP_SEPARATOR);
  const symbology = /^\][A-Za-z]./.exec(text)?.[0];
  if (symbology !== undefined && !GS1_SYMBOLOGIES.includes(symbology)) {
    return refused(
      "not-an-element-string",
      `The mark ${shown(symbology)} stands for a barcode without GS1 elements. GS1 ones are ${GS1_SYMBOLOGIES.join(", ")}.`,
    );
  }
  const bare = text.slice(symbology?.length ?? 0);
  const trimmed = withoutOuterSeparators(bare);
  if (trimmed === "")
    return refused("empty", "There is nothing to read. Scan the barcode, or paste the line printed below it.");
  return trimmed.startsWith("(") ? splitBracketed(trimmed) : splitRaw(trimmed);
}

function withoutOuterSeparators(text: string): string {
  let from = 0;
  let to = text.length;
  while (text[from] === GROUP_SEPARATOR) from += 1;
  while (to > from && text[to - 1] === GROUP_SEPARATOR) to -= 1;
  return text.slice(from, to);
}

/** (01)09506000134352(21)SN1, as printed for people. */
function splitBracketed(text: string): Split {
  const marks = [...text.matchAll(/\((\d{2,4})\)/g)];
  if (marks[0]?.index !== 0) {
    return refused(
      "not-an-element-string",
      `"${shown(text)}" does not begin with an identifier of 2 to 4 digits in brackets.`,
    );
  }
  const elements = marks.map((mark, index) => ({
    ai: mark[1] ?? "",
    value: text
      .slice(mark.index + mark[0].length, marks[index + 1]?.index ?? text.length)
      .replaceAll(GROUP_SEPARATOR, "")
      .trim(),
    openEnded: false,
  }));
  return { ok: true, elements };
}

function splitRaw(text: string): Split {
  const elements: RawElement[] = [];
  let at = 0;
  while (at < text.length) {
    if (text[at] === GROUP_SEPARATOR) {
      at += 1;
      continue;
    }
    const next = elementAt(text, at);
    if (next === null) {
      const where = `At character ${at + 1}, "${shown(text.slice(at, at + 8))}"`;
      return refused("not-an-element-string", `${where}: an identifier of 2 to 4 digits was expected.`);
    }
    elements.push(next.element);
    at = next.end;
  }
  return { ok: true, elements };
}

function elementAt(text: string, at: number): { element: RawElement; end: number } | null {
  const firstTwo = text.slice(at, at + 2);
  const ai = text.slice(at, at + identifierLength(firstTwo));
  if (!/^\d{2,4}$/.test(ai) || ai.length !== identifierLength(firstTwo)) return null;
  const separator = text.indexOf(GROUP_SEPARATOR, at);
  const toSeparator = separator < 0 ? text.length : separator;
  const whole = predefinedLength(firstTwo);
  const end = whole === null ? toSeparator : Math.min(at + whole, toSeparator);
  const variable = whole === null && (applicationIdentifier(ai)?.format.includes("..") ?? true);
  return { element: { ai, value: text.slice(at + ai.length, end), openEnded: variable }, end };
}
