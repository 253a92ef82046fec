import { addDays, type Instant, instantAt, type LocalDate, localTime } from "@/lib/units/time";

const MIDNIGHT = localTime("00:00");

/** Asking a calendar costs more than judging a room, and all rooms of a facility ask about the same few dates. */
const MOST_REMEMBERED = 2_000;
const begun = new Map<string, Instant>();
const ended = new Map<string, Instant>();

function remember(dates: Map<string, Instant>, timeZone: string, date: LocalDate, days: number): Instant {
  const key = date + timeZone;
  const known = dates.get(key);
  if (known !== undefined) return known;
  const at = instantAt(timeZone, addDays(date, days), MIDNIGHT);
  if (dates.size >= MOST_REMEMBERED) dates.clear();
  dates.set(key, at);
  return at;
}

/** The moment a day begins at the facility. */
export const startOf = (timeZone: string, date: LocalDate): Instant => remember(begun, timeZone, date, 0);

/** The moment a day has ended there. */
export const endOf = (timeZone: string, date: LocalDate): Instant => remember(ended, timeZone, date, 1);
