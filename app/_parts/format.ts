import type { Quantity } from "@/lib/units/quantity";
import { dateIn, daysBetween, instantOf, type LocalDate, type Timestamp, timeIn } from "@/lib/units/time";

const NUMBERS = new Map<number, Intl.NumberFormat>();

/** "1,955", "20.9": thousands separated, no more decimals than asked for. */
export function numberText(value: number, decimals = 1): string {
  let format = NUMBERS.get(decimals);
  if (!format) {
    format = new Intl.NumberFormat("en-US", { maximumFractionDigits: decimals });
    NUMBERS.set(decimals, format);
  }
  return format.format(value);
}

const NO_BREAK = "\u00a0";
/** How a unit is written for people; those not named are written as they are. */
const UNIT_TEXT: Partial<Record<Quantity["unit"], string>> = { cmH2O: "cmH₂O" };

/** A number never stands without its unit, nor breaks away from it at a line's end. */
export function quantityText({ value, unit }: Quantity): string {
  return `${numberText(value)}${NO_BREAK}${UNIT_TEXT[unit] ?? unit}`;
}

/** "85 min", "2 h 05 min". */
export function minutesText(minutes: number): string {
  const whole = Math.max(0, Math.floor(minutes));
  if (whole < 120) return `${whole}${NO_BREAK}min`;
  return `${Math.floor(whole / 60)}${NO_BREAK}h${NO_BREAK}${String(whole % 60).padStart(2, "0")}${NO_BREAK}min`;
}

/** The facility's clock at that moment, HH:MM. */
export function clockText(at: Timestamp, zone: string): string {
  return timeIn(zone, instantOf(at));
}

const DAY_NAMES = new Intl.DateTimeFormat("en-GB", {
  timeZone: "UTC",
  weekday: "short",
  day: "numeric",
  month: "short",
});
const LONG_DAYS = new Intl.DateTimeFormat("en-GB", { timeZone: "UTC", weekday: "long", day: "numeric", month: "long" });
const YEAR_DAYS = new Intl.DateTimeFormat("en-GB", {
  timeZone: "UTC",
  day: "numeric",
  month: "short",
  year: "numeric",
});

/** "Mon 23 Nov" */
export function dayText(date: LocalDate | string): string {
  return DAY_NAMES.format(new Date(`${date}T00:00:00Z`)).replace(",", "");
}

/** "Tuesday 24 November" */
export function longDayText(date: LocalDate | string): string {
  return LONG_DAYS.format(new Date(`${date}T00:00:00Z`)).replace(",", "");
}

/** "23 Nov 2026": for what may lie in another year, as service dates do. */
export function dateText(date: LocalDate | string): string {
  return YEAR_DAYS.format(new Date(`${date}T00:00:00Z`));
}

/** "05:41" today, "Mon 23 Nov 18:20" on another day of the facility's calendar. */
export function whenText(at: Timestamp, now: Timestamp, zone: string): string {
  const day = dateIn(zone, instantOf(at));
  const away = daysBetween(day, dateIn(zone, instantOf(now)));
  const time = clockText(at, zone);
  if (away === 0) return time;
  return Math.abs(away) < 300 ? `${dayText(day)} ${time}` : `${dateText(day)} ${time}`;
}

/** "1 room", "3 rooms" */
export function countText(count: number, one: string, many = `${one}s`): string {
  return `${numberText(count, 0)} ${count === 1 ? one : many}`;
}

/** "Rosa Osei" is "R. Osei" where room is short. */
export function shortName(name: string): string {
  const words = name.trim().split(/\s+/);
  const [first = "", ...rest] = words;
  if (rest.length === 0 || first.endsWith(".")) return name;
  return `${[...first][0]}. ${rest.join(" ")}`;
}
