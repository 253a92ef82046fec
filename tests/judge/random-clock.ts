import { localDate } from "@/lib/units/time";
import type { Random } from "./random";

const MINUTE = 60_000;
const DAY = 1_440 * MINUTE;

/** Mornings, some of them on days of 23 and of 25 hours, in zones that change their clocks by an hour, by half of one, or never. */
const MOMENTS = [
  ["America/New_York", "2026-03-08T10:00:00Z"],
  ["America/New_York", "2026-11-01T11:00:00Z"],
  ["America/Chicago", "2026-03-03T12:10:00Z"],
  ["Europe/London", "2026-03-29T05:30:00Z"],
  ["Europe/London", "2026-10-25T06:15:00Z"],
  ["Australia/Lord_Howe", "2026-10-03T20:00:00Z"],
  ["Asia/Kolkata", "2026-06-30T01:00:00Z"],
  ["Pacific/Kiritimati", "2026-12-31T17:00:00Z"],
] as const;

/** Moments of one document: on a grid of five minutes, so that some coincide, and sometimes between its lines. */
export class Clock {
  readonly timeZone: string;
  readonly now: string;
  readonly #now: number;

  constructor(private readonly random: Random) {
    const [timeZone, base] = random.one(MOMENTS);
    this.timeZone = timeZone;
    this.#now = Date.parse(base) + random.whole(-144, 144) * 5 * MINUTE;
    this.now = new Date(this.#now).toISOString();
  }

  ago(hours: number): string {
    const off = this.random.chance(0.1) ? this.random.whole(0, 5 * MINUTE) : 0;
    return new Date(this.#now - this.random.whole(0, hours * 12) * 5 * MINUTE - off).toISOString();
  }

  around(hoursBefore: number, hoursAfter: number): string {
    return new Date(this.#now + this.random.whole(-hoursBefore * 12, hoursAfter * 12) * 5 * MINUTE).toISOString();
  }

  /** Somewhere from an earlier moment to now. */
  since(earlier: string): string {
    const span = this.#now - Date.parse(earlier);
    return new Date(Date.parse(earlier) + Math.floor((this.random.next() * span) / MINUTE) * MINUTE).toISOString();
  }

  day(daysBefore: number, daysAfter: number) {
    const at = this.#now + this.random.whole(-daysBefore, daysAfter) * DAY;
    return localDate(new Date(at).toISOString().slice(0, 10));
  }
}

export const maybe = <Thing>(random: Random, share: number, make: () => Thing): Thing | null =>
  random.chance(share) ? make() : null;
