import type { Calculated, Refused } from "@/lib/calculations/calculated";
import { refused } from "@/lib/calculations/calculated";
import type { LocalDate } from "@/lib/units/time";
import { type ApplicationIdentifier, applicationIdentifier } from "./application-identifiers";
import { checkDigitOf, hasValidCheckDigit, shown } from "./check-digit";
import { type DateRefusal, dateOfCode, dateRangeOfCode, dateTimeOfCode, notADate } from "./code-dates";
import { type RawElement, type SplitRefusal, splitElementString } from "./split-string";
import { swallowed } from "./swallowed";
import { type FormatRefusal, formatProblem, unknownValueProblem } from "./value-format";

export interface Gs1Element {
  readonly ai: string;
  readonly title: string;
  /** As it stands in the code. */
  readonly raw: string;
  /** What it means: a date as YYYY-MM-DD, a measure with its decimal point, otherwise as it stands. */
  readonly value: string;
  readonly known: boolean;
  /** Where the value has parts of its own. */
  readonly parts?: Readonly<Record<string, string>>;
}

export interface Gs1Reading {
  readonly elements: readonly Gs1Element[];
  /** What may be read otherwise: said, never guessed. */
  readonly suspicious: readonly string[];
}

export type Gs1Refusal =
  | SplitRefusal
  | FormatRefusal
  | DateRefusal
  | "check-digit"
  | "piece-of-total"
  | "conflicting-values";

/**
 * Reads a GS1 element string.
 *
 * in        the string as scanned (separator ASCII 29) or as printed with brackets; the day it is read, for the century of its dates
 * out       its elements in order, with dates as dates; identifiers that are not known here are kept up to the next separator
 * validity  the identifiers of application-identifiers.ts; no GS1 Digital Link addresses
 * error     a lost separator cannot always be seen: a value of open length that ends in something like a further element is named under
 *           `suspicious`. The check digit does not find every change of two neighbours
 * refuses   a value too long or too short, wrong characters, a wrong check digit, a day the calendar does not have, one identifier with two
 *           different values
 * source    GS1 General Specifications (from memory); public barcode documentation
 */
export function readElementString(text: string, seenOn: LocalDate): Calculated<Gs1Reading, Gs1Refusal> {
  const split = splitElementString(text);
  if (!split.ok) return split;
  const elements: Gs1Element[] = [];
  for (const raw of split.elements) {
    const read = readElement(raw, seenOn);
    if ("refusal" in read) return read;
    const before = elements.find(({ ai }) => ai === read.ai);
    if (before && before.raw !== read.raw) return conflicting(before, read);
    if (!before) elements.push(read);
  }
  if (split.elements.some(({ openEnded }) => openEnded) && !elements.some(({ known }) => known))
    return nothingKnown(text);
  return {
    ok: true,
    value: { elements, suspicious: swallowed(split.elements, seenOn, readElement) },
    method: "GS1 element string",
    uncertainty: null,
    source: "GS1 General Specifications (from memory)",
  };
}

/** The values by application identifier. */
export function fieldsOf({ elements }: Gs1Reading): Record<string, string> {
  return Object.fromEntries(elements.map(({ ai, value }) => [ai, value]));
}

/** A bare trade item number, or no GS1 code at all: without brackets nothing says where an identifier ends. */
function nothingKnown(text: string): Refused<"not-an-element-string"> {
  const message = `"${shown(text)}" holds no application identifier that is known. A bare number is not an element string: put (01) before a GTIN of 14 digits.`;
  return refused("not-an-element-string", message);
}

function conflicting(one: Gs1Element, other: Gs1Element): Refused<"conflicting-values"> {
  const message = `(${one.ai}) ${one.title} stands twice with different values, ${one.raw} and ${other.raw}. Scan one label only.`;
  return refused("conflicting-values", message);
}

export function readElement({ ai, value }: RawElement, seenOn: LocalDate): Gs1Element | Refused<Gs1Refusal> {
  const known = applicationIdentifier(ai);
  if (!known) {
    const title = "identifier that is not known";
    return unknownValueProblem(ai, value) ?? { ai, title, raw: value, value, known: false };
  }
  return formatProblem(known, value) ?? meaningOf(known, value, seenOn);
}

function meaningOf(known: ApplicationIdentifier, raw: string, seenOn: LocalDate): Gs1Element | Refused<Gs1Refusal> {
  const { ai, title, meaning, checked, decimals } = known;
  const element = { ai, title, raw, value: raw, known: true };
  if (decimals !== undefined) return { ...element, value: withDecimals(raw, decimals) };
  if (checked !== undefined) {
    const wrong = wrongCheckDigit(known, raw.slice(0, checked));
    if (wrong) return wrong;
  }
  if (meaning === "piece-of-total") return pieceOfTotal(element);
  const written = dateMeant(meaning, raw, seenOn);
  if (written === null) return notADate(`(${ai}) ${title}`, raw);
  return written === undefined ? element : { ...element, value: written };
}

/** Undefined when the value is no date, null when it is none that exists. */
function dateMeant(
  meaning: ApplicationIdentifier["meaning"],
  raw: string,
  seenOn: LocalDate,
): string | null | undefined {
  if (meaning === "date") return dateOfCode(raw, seenOn);
  if (meaning === "date-time") return dateTimeOfCode(raw, seenOn);
  if (meaning === "date-range") return dateRangeOfCode(raw, seenOn);
  return undefined;
}

function wrongCheckDigit({ ai, title }: ApplicationIdentifier, digits: string): Refused<"check-digit"> | null {
  if (hasValidCheckDigit(digits)) return null;
  const right = checkDigitOf(digits.slice(0, -1));
  return refused(
    "check-digit",
    `(${ai}) ${title} ${digits} ends in ${digits.at(-1)}; its check digit would be ${right}. Read it again.`,
  );
}

function pieceOfTotal(element: Gs1Element): Gs1Element | Refused<"piece-of-total"> {
  const { ai, title, raw } = element;
  const parts = { gtin: raw.slice(0, 14), piece: raw.slice(14, 16), total: raw.slice(16, 18) };
  if (Number(parts.piece) >= 1 && Number(parts.piece) <= Number(parts.total)) return { ...element, parts };
  return refused(
    "piece-of-total",
    `(${ai}) ${title} says piece ${parts.piece} of ${parts.total}; a piece is numbered from 01 to the total.`,
  );
}

function withDecimals(digits: string, decimals: number): string {
  if (decimals === 0) return String(Number(digits));
  const padded = digits.padStart(decimals + 1, "0");
  const whole = String(Number(padded.slice(0, -decimals)));
  return `${whole}.${padded.slice(-decimals)}`;
}
