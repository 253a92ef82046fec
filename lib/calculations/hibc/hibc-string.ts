import { type Calculated, type Refused, refused } from "@/lib/calculations/calculated";
import { shown } from "@/lib/calculations/gs1/check-digit";
import type { LocalDate } from "@/lib/units/time";
import { HIBC_ALPHABET, hibcCheckCharacter } from "./check-character";
import { type HibcSecondary, readSecondary, type SecondaryRefusal } from "./secondary";
import { readSupplement, type Supplement } from "./supplement";

export interface HibcPrimary {
  /** Four characters that name the labeler; the first is a letter. */
  readonly labeler: string;
  readonly product: string;
  /** 0 is the unit of use, 1 to 8 are levels of packing, 9 is a varying quantity. */
  readonly unitOfMeasure: number;
}

/** One union per structure: a field is there when the code can carry it. */
export type HibcReading =
  | ({ readonly structure: "primary"; readonly check: string } & HibcPrimary)
  | ({ readonly structure: "secondary"; readonly check: string; readonly link: string } & HibcSecondary)
  | ({ readonly structure: "combined"; readonly check: string } & HibcPrimary &
      HibcSecondary &
      Pick<Supplement, "manufactured" | "other">);

export type HibcRefusal = SecondaryRefusal | "wrong-characters" | "check-character" | "conflicting-values";

/**
 * Reads a HIBC supplier string.
 *
 *   primary      + labeler (4) product (1 to 18) unit of measure (1) check
 *   secondary    + date, lot, serial or quantity, link character, check        the link is the check character of its primary
 *   combined     + labeler product unit / secondary [/ supplements] check
 *
 * in        the string, as scanned or with the asterisks of the print; the day it is read, for the century (without: 2000 to 2099)
 * out       its parts; an expiry that tells no day is the last of its month
 * error     the check character finds every single wrong character, but no change of order: the sum has no weights
 * refuses   a wrong check character, a character that HIBC does not have, a date the calendar does not have, parts too long
 * source    HIBC data-structure documentation in open barcode libraries; alphabet and supplements from memory
 */
export function readHibc(given: string, seenOn: LocalDate | null): Calculated<HibcReading, HibcRefusal> {
  const text = withoutPrintMarks(given);
  const checked = checkedBody(text);
  if (typeof checked !== "string") return checked;
  const value = structured(checked, text.at(-1) ?? "", seenOn);
  if ("refusal" in value) return value;
  return {
    ok: true,
    value,
    method: `HIBC, ${value.structure} structure`,
    uncertainty: null,
    source: "HIBC data-structure documentation in open barcode libraries",
  };
}

/** Does this secondary string belong to that primary one? Its link character repeats the other's check character. */
export function linksTo(secondary: HibcReading, primary: HibcReading): boolean {
  return secondary.structure === "secondary" && primary.structure === "primary" && secondary.link === primary.check;
}

/** Code 39 prints a star at both ends. A space at the end may be the check character and stays. */
function withoutPrintMarks(given: string): string {
  let text = given.trimStart();
  while (/[\t\r\n]$/.test(text)) text = text.slice(0, -1);
  return text.length > 1 && text.startsWith("*") && text.endsWith("*") ? text.slice(1, -1) : text;
}

/** The string without its check character, if that is right. */
function checkedBody(text: string): string | Refused<HibcRefusal> {
  if (!text.startsWith("+") || text.length < 4) {
    return refused(
      "not-a-structure",
      `"${shown(text)}" is not a HIBC string: it begins with + and ends with a check character.`,
    );
  }
  const wrong = [...text].find((character) => !HIBC_ALPHABET.includes(character));
  if (wrong !== undefined) {
    return refused(
      "wrong-characters",
      `"${shown(wrong)}" is not a HIBC character. They are 0 to 9, A to Z and - . space $ / + %.`,
    );
  }
  const right = hibcCheckCharacter(text.slice(0, -1));
  if (right === text.at(-1)) return text.slice(0, -1);
  return refused(
    "check-character",
    `"${shown(text)}" ends in "${text.at(-1)}"; its check character would be "${right}". Read it again.`,
  );
}

function structured(body: string, check: string, seenOn: LocalDate | null): HibcReading | Refused<HibcRefusal> {
  if (!/^\+[A-Z]/.test(body)) return secondaryAlone(body, check, seenOn);
  const [first = "", second, ...supplements] = body.split("/");
  const primary = readPrimary(first.slice(1));
  if ("refusal" in primary) return primary;
  if (second === undefined) return { structure: "primary", check, ...primary };
  const secondary = readSecondary(second, seenOn);
  if ("refusal" in secondary) return secondary;
  const supplement = readSupplement(supplements);
  if ("refusal" in supplement) return supplement;
  const together = joined(secondary, supplement);
  if ("refusal" in together) return together;
  const { manufactured, other } = supplement;
  return { structure: "combined", check, ...primary, ...together, manufactured, other };
}

/** A supplement may add what the secondary part leaves out, and may repeat it, but not say otherwise. */
function joined(secondary: HibcSecondary, supplement: Supplement): HibcSecondary | Refused<"conflicting-values"> {
  const { expires, serial, quantity } = supplement;
  const pairs = [
    ["expiry", secondary.expiry?.date ?? null, expires],
    ["serial number", secondary.serial, serial],
    ["quantity", secondary.quantity, quantity],
  ] as const;
  const clash = pairs.find(([, one, other]) => one !== null && other !== null && one !== other);
  if (clash) {
    const [what, one, other] = clash;
    return refused(
      "conflicting-values",
      `The ${what} stands twice with different values, ${one} and ${other}. Read the label.`,
    );
  }
  return {
    quantity: secondary.quantity ?? quantity,
    expiry: secondary.expiry ?? (expires && { date: expires, precision: "day", hour: null }),
    lot: secondary.lot,
    serial: secondary.serial ?? serial,
  };
}

function secondaryAlone(body: string, check: string, seenOn: LocalDate | null): HibcReading | Refused<HibcRefusal> {
  const secondary = readSecondary(body.slice(1, -1), seenOn);
  if ("refusal" in secondary) return secondary;
  return { structure: "secondary", check, link: body.at(-1) ?? "", ...secondary };
}

function readPrimary(text: string): HibcPrimary | Refused<HibcRefusal> {
  const parts = /^([A-Z][A-Z0-9]{3})([A-Z0-9]{1,18})(\d)$/.exec(text);
  const [, labeler = "", product = "", unit = ""] = parts ?? [];
  if (parts) return { labeler, product, unitOfMeasure: Number(unit) };
  const right =
    "a labeler of 4 characters that begins with a letter, a product of 1 to 18 letters and digits, one digit";
  return refused("not-a-structure", `"${shown(text)}" is not a primary part. It is ${right}.`);
}
