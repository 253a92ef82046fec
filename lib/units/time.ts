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
  return instant(Date.parse(timestamp));
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
