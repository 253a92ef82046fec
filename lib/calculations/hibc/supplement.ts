import { type Refused, refused } from "@/lib/calculations/calculated";
import { dateOf } from "@/lib/calculations/calendar-months";
import type { LocalDate } from "@/lib/units/time";

/** What may follow the secondary part, each after a slash. */
export interface Supplement {
  readonly quantity: number | null;
  readonly serial: string | null;
  readonly manufactured: LocalDate | null;
  /** From 14D. */
  readonly expires: LocalDate | null;
  /** Parts that are not known here, kept as they stand. */
  readonly other: readonly string[];
}

const NONE: Supplement = { quantity: null, serial: null, manufactured: null, expires: null, other: [] };

/**
 * S serial, Q quantity, 16D date of manufacture and 14D expiry (YYYYMMDD); anything else is kept.
 * Source: HIBC supplier labeling standard, supplemental data (from memory).
 */
export function readSupplement(parts: readonly string[]): Supplement | Refused<"not-a-date"> {
  let read = NONE;
  for (const part of parts) {
    const next = added(read, part);
    if ("refusal" in next) return next;
    read = next;
  }
  return read;
}

function added(read: Supplement, part: string): Supplement | Refused<"not-a-date"> {
  const dated = /^(14D|16D)(.*)$/.exec(part);
  if (dated) return withDate(read, dated[1] ?? "", dated[2] ?? "");
  if (/^S.{1,18}$/.test(part)) return { ...read, serial: part.slice(1) };
  if (/^Q\d{1,9}$/.test(part)) return { ...read, quantity: Number(part.slice(1)) };
  return { ...read, other: [...read.other, part] };
}

function withDate(read: Supplement, kind: string, digits: string): Supplement | Refused<"not-a-date"> {
  const [, year, month, day] = /^(\d{4})(\d{2})(\d{2})$/.exec(digits) ?? [];
  const date = day === undefined ? null : dateOf({ year: Number(year), month: Number(month), day: Number(day) });
  if (!date) return refused("not-a-date", `/${kind} says "${digits}", and that is no date written YYYYMMDD.`);
  return kind === "14D" ? { ...read, expires: date } : { ...read, manufactured: date };
}
