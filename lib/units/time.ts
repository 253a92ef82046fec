/**
 * Instants and dates. An instant is a moment in UTC; a date is a day in a calendar and has no zone; only a facility's IANA zone joins them.
 * Uses the platform's own zone data (Intl), so the pure core needs no package.
 */
declare const kind: unique symbol;

/** Milliseconds since 1970-01-01T00:00:00Z. */
export type Instant = number & { readonly [kind]: "instant" };
/** A day written YYYY-MM-DD. */
export type LocalDate = string & { readonly [kind]: "local-date" };
/** A time of day written HH:MM. */
export type LocalTime = string & { readonly [kind]: "local-time" };
/** An instant written by RFC 3339 with Z, as evidence carries it. */
export type Timestamp = string;

export const MINUTE = 60_000;
export const HOUR = 60 * MINUTE;
export const DAY = 24 * HOUR;

export function instant(milliseconds: number): Instant {
  if (!Number.isFinite(milliseconds)) throw new RangeError(`${milliseconds} is not an instant`);
  return milliseconds as Instant;
}

export function instantOf(timestamp: Timestamp): Instant {
  return (plainUtc(timestamp) ?? instant(Date.parse(timestamp))) as Instant;
}

const ZERO = 48;
/** Days before each month of a year that begins in March, so that a leap day is the last of all. */
const DAYS_BEFORE = [306, 337, 0, 31, 61, 92, 122, 153, 184, 214, 245, 275] as const;
const MARCH_1970 = 719_468;

/**
 * Evidence writes its instants all in one way, 2026-03-03T12:10:00.000Z, and a judgement reads hundreds of them: this reads that
 * way alone, several times faster than the platform's parser, and leaves every other to it (null).
 */
function plainUtc(text: string): number | null {
  if (!isWrittenPlainly(text)) return null;
  const year = digits(text, 0) * 100 + digits(text, 2);
  const month = digits(text, 5);
  const day = digits(text, 8);
  const hour = digits(text, 11);
  const minute = digits(text, 14);
  const second = digits(text, 17);
  // The places overlap by one digit, so that all three are looked at.
  const milliseconds = digits(text, 20) * 10 + (digits(text, 21) % 10);
  const isOrdinary = month >= 1 && month <= 12 && day >= 1 && day <= 28 && hour < 24 && minute < 60 && second < 60;
  // The end of a month, a leap year and anything that is not a digit are the platform's business.
  if (!isOrdinary || !(year >= 1970 && year < 2100) || !(milliseconds >= 0 && milliseconds < 1000)) return null;
  const years = month <= 2 ? year - 1 : year;
  const leapDays = Math.floor(years / 4) - Math.floor(years / 100) + Math.floor(years / 400);
  const days = years * 365 + leapDays + (DAYS_BEFORE[month - 1] ?? 0) + day - 1 - MARCH_1970;
  return days * DAY + hour * HOUR + minute * MINUTE + second * 1000 + milliseconds;
}

/** Two digits as a number, or not a number. */
function digits(text: string, at: number): number {
  const tens = text.charCodeAt(at) - ZERO;
  const ones = text.charCodeAt(at + 1) - ZERO;
  return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : Number.NaN;
}

/** 2026-03-03T12:10:00.000Z: the places of what stands between its digits. */
const SEPARATORS = [
  [4, "-"],
  [7, "-"],
  [10, "T"],
  [13, ":"],
  [16, ":"],
  [19, "."],
  [23, "Z"],
] as const;
const PLACES = SEPARATORS.map(([at, separator]) => [at, separator.charCodeAt(0)] as const);

function isWrittenPlainly(text: string): boolean {
  if (text.length !== 24) return false;
  for (const [at, code] of PLACES) if (text.charCodeAt(at) !== code) return false;
  return true;
}

export function timestampOf(at: Instant): Timestamp {
  return new Date(at).toISOString();
}

export function later(at: Instant, milliseconds: number): Instant {
  return instant(at + milliseconds);
}

export function localDate(text: string): LocalDate {
  const parsed = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!parsed || new Date(`${text}T00:00:00Z`).toISOString().slice(0, 10) !== text)
    throw new RangeError(`${text} is not a date (YYYY-MM-DD)`);
  return text as LocalDate;
}

export function localTime(text: string): LocalTime {
  if (!/^([01]\d|2[0-3]):[0-5]\d$/.test(text)) throw new RangeError(`${text} is not a time of day (HH:MM)`);
  return text as LocalTime;
}

export function addDays(date: LocalDate, days: number): LocalDate {
  return new Date(Date.parse(`${date}T00:00:00Z`) + days * DAY).toISOString().slice(0, 10) as LocalDate;
}

/** Whole days from one date to another; negative when `to` is earlier. */
export function daysBetween(from: LocalDate, to: LocalDate): number {
  return Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / DAY);
}

/** 0 is Sunday. */
export function weekday(date: LocalDate): number {
  return new Date(`${date}T00:00:00Z`).getUTCDay();
}

const formatters = new Map<string, Intl.DateTimeFormat>();

function formatterFor(zone: string): Intl.DateTimeFormat {
  const known = formatters.get(zone);
  if (known) return known;
  const made = new Intl.DateTimeFormat("en-CA", {
    timeZone: zone,
    hourCycle: "h23",
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
    hour: "2-digit",
    minute: "2-digit",
    second: "2-digit",
  });
  formatters.set(zone, made);
  return made;
}

/** A zone's offsets over a stretch of time, each from when it holds, in milliseconds. */
export interface ZoneOffsets {
  readonly zone: string;
  readonly steps: readonly { readonly from: number; readonly offset: number }[];
  readonly to: number;
}

const adopted = new Map<string, ZoneOffsets>();

/**
 * Takes another machine's offsets of a zone for this one's. Governments move their clocks at short notice, and a phone's zone data may
 * be older or newer than the server's: screens adopt the server's, so that everybody reads the same time of day.
 */
export function adoptOffsets(offsets: ZoneOffsets): void {
  adopted.set(offsets.zone, offsets);
}

/** The offset of the zone from UTC at that instant, in milliseconds (positive east of Greenwich). */
export function offsetAt(at: Instant, zone: string): number {
  const known = adopted.get(zone);
  const step = known && at < known.to ? known.steps.findLast(({ from }) => from <= at) : undefined;
  return step ? step.offset : ownOffsetAt(at, zone);
}

function ownOffsetAt(at: Instant, zone: string): number {
  const parts: Record<string, number> = {};
  for (const { type, value } of formatterFor(zone).formatToParts(at)) parts[type] = Number(value);
  const { year = 0, month = 1, day = 1, hour = 0, minute = 0, second = 0 } = parts;
  const asIfUtc = Date.UTC(year, month - 1, day, hour, minute, second);
  return asIfUtc - Math.floor(at / 1000) * 1000;
}

/** The facility's calendar day at that instant. */
export function dateIn(zone: string, at: Instant): LocalDate {
  return new Date(at + offsetAt(at, zone)).toISOString().slice(0, 10) as LocalDate;
}

/** The facility's time of day at that instant, HH:MM. */
export function timeIn(zone: string, at: Instant): LocalTime {
  return new Date(at + offsetAt(at, zone)).toISOString().slice(11, 16) as LocalTime;
}

/**
 * The instant at which the facility's clocks show that date and time.
 * A repeated local time means its first occurrence; one that does not exist is read with the offset before the gap (RFC 5545, section 3.3.5).
 */
export function instantAt(zone: string, date: LocalDate, time: LocalTime): Instant {
  const wall = Date.parse(`${date}T${time}:00Z`);
  const before = offsetAt(instant(wall - DAY), zone);
  const after = offsetAt(instant(wall + DAY), zone);
  const early = instant(wall - before);
  if (offsetAt(early, zone) === before) return early;
  const late = instant(wall - after);
  return offsetAt(late, zone) === after ? late : early;
}
