import { type Refused, refused } from "@/lib/calculations/calculated";
import type { LocalDate } from "@/lib/units/time";
import { type HibcDate, type HibcDateFormat, hibcDate } from "./code-dates";

/** What the secondary part says of one unit. */
export interface HibcSecondary {
  readonly quantity: number | null;
  readonly expiry: HibcDate | null;
  readonly lot: string | null;
  readonly serial: string | null;
}

export type SecondaryRefusal = "not-a-date" | "wrong-length" | "not-a-structure";

const LONGEST_LOT = 18;

/** After $$ or $$+: the digit that names the date format. Months begin with 0 or 1, so these are part of the date itself. */
const FORMATS: Readonly<Record<string, { readonly format: HibcDateFormat; readonly skip: number }>> = {
  0: { format: "MMYY", skip: 0 },
  1: { format: "MMYY", skip: 0 },
  2: { format: "MMDDYY", skip: 1 },
  3: { format: "YYMMDD", skip: 1 },
  4: { format: "YYMMDDHH", skip: 1 },
  5: { format: "YYJJJ", skip: 1 },
  6: { format: "YYJJJHH", skip: 1 },
};
const NO_DATE = "7";
/** Digits of the quantity after 8 and after 9. */
const QUANTITY_DIGITS: Readonly<Record<string, number>> = { 8: 2, 9: 5 };

const NOTHING: HibcSecondary = { quantity: null, expiry: null, lot: null, serial: null };

/**
 * Reads a secondary part without its leading +, link and check character:
 * YYJJJ and lot; $ lot; $+ serial; $$ or $$+ with quantity (8, 9), date (0 to 6) or none (7), and lot or serial.
 *
 * source    HIBC data-structure documentation in open barcode libraries
 */
export function readSecondary(text: string, seenOn: LocalDate | null): HibcSecondary | Refused<SecondaryRefusal> {
  if (text.startsWith("$$")) return dated(text.slice(2), seenOn);
  if (text.startsWith("$")) return named(NOTHING, text.slice(1));
  if (!/^\d{5}/.test(text)) {
    const message = `"${text}" is not a secondary part: it begins with $, $$ or a date of five digits (YYJJJ).`;
    return refused("not-a-structure", message);
  }
  return withDate(NOTHING, text, { format: "YYJJJ", skip: 0 }, false, seenOn);
}

function dated(given: string, seenOn: LocalDate | null): HibcSecondary | Refused<SecondaryRefusal> {
  const serial = given.startsWith("+");
  const text = serial ? given.slice(1) : given;
  const digits = QUANTITY_DIGITS[text[0] ?? ""];
  if (digits === undefined) return afterQuantity(NOTHING, text, serial, seenOn);
  const quantity = text.slice(1, 1 + digits);
  if (!new RegExp(`^\\d{${digits}}$`).test(quantity)) {
    return refused("wrong-length", `The quantity after ${text[0]} has ${digits} digits; "${quantity}" has not.`);
  }
  const rest = text.slice(1 + digits);
  const base = { ...NOTHING, quantity: Number(quantity) };
  // After a quantity the date may be left out: then nothing, or a lot that does not begin with a date format, follows.
  return rest === "" ? base : afterQuantity(base, rest, serial, seenOn);
}

function afterQuantity(base: HibcSecondary, text: string, serial: boolean, seenOn: LocalDate | null) {
  const first = text[0] ?? "";
  if (first === NO_DATE) return named(base, `${serial ? "+" : ""}${text.slice(1)}`);
  const format = FORMATS[first];
  if (format) return withDate(base, text, format, serial, seenOn);
  const message = `"${first}" after $$ names no date format. It is 0 to 6 for a date, 7 for none, 8 or 9 for a quantity.`;
  return refused("not-a-structure", message);
}

function withDate(
  base: HibcSecondary,
  text: string,
  { format, skip }: { readonly format: HibcDateFormat; readonly skip: number },
  serial: boolean,
  seenOn: LocalDate | null,
): HibcSecondary | Refused<SecondaryRefusal> {
  const digits = text.slice(skip, skip + format.length);
  const expiry = new RegExp(`^\\d{${format.length}}$`).test(digits) ? hibcDate(digits, format, seenOn) : null;
  if (!expiry) return refused("not-a-date", `The expiry says "${digits}", and that is no date written ${format}.`);
  return named({ ...base, expiry }, `${serial ? "+" : ""}${text.slice(skip + format.length)}`);
}

/** The lot, or after + the serial number, that ends the part; either may be left out. */
function named(base: HibcSecondary, text: string): HibcSecondary | Refused<SecondaryRefusal> {
  const serial = text.startsWith("+");
  const name = serial ? text.slice(1) : text;
  if (name.length > LONGEST_LOT) {
    const what = serial ? "serial number" : "lot";
    return refused("wrong-length", `The ${what} "${name}" has ${name.length} characters; it may have ${LONGEST_LOT}.`);
  }
  if (name === "") return base;
  return serial ? { ...base, serial: name } : { ...base, lot: name };
}
