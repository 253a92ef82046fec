import { z } from "zod";
import { PRESSURE_UNITS } from "@/lib/units/pressure";

/** What the inputs of the calculations are made of. `title` and `unit` are for people and programs that build a form from the schema. */
interface Words {
  readonly title: string;
  /** What a bare number counts. */
  readonly unit?: string;
  /** What it is, and what it means when it is left out. */
  readonly description: string;
  /** The input belongs to these choices of another input and has no meaning beside others. */
  readonly when?: Readonly<Record<string, readonly string[]>>;
}

/** Wider than any input of the trade; it keeps sums and products writable. */
const MOST = 1e9;

export function number(words: Words) {
  return z
    .number()
    .min(-MOST)
    .max(MOST)
    .meta({ ...words });
}

/** Zero or more: a flow, a volume, a mass. */
export function amount(words: Words) {
  return z
    .number()
    .min(0)
    .max(MOST)
    .meta({ ...words });
}

export function whole(words: Words) {
  return z
    .int()
    .min(-MOST)
    .max(MOST)
    .meta({ ...words });
}

export function oneOf<const Names extends readonly [string, ...string[]]>(names: Names, words: Words) {
  return z.enum(names).meta({ ...words });
}

export function text(words: Words, most = 500) {
  return z
    .string()
    .max(most)
    .meta({ ...words });
}

const DATE = "must be a date of the calendar, such as 2026-11-25";

export function date(words: Words) {
  // The zone-free year 0000 has no place in the calendar of service dates.
  return z.iso
    .date(DATE)
    .refine((text) => !text.startsWith("0000"), DATE)
    .meta({ ...words });
}

export function pressure(words: Words) {
  return z.strictObject({ value: z.number().min(-MOST).max(MOST), unit: z.enum(PRESSURE_UNITS) }).meta({ ...words });
}
