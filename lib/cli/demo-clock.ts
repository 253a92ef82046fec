import { existsSync, readFileSync } from "node:fs";
import path from "node:path";
import {
  addDays,
  dateIn,
  type Instant,
  instant,
  instantAt,
  type LocalDate,
  localTime,
  timeIn,
  weekday,
} from "@/lib/units/time";
import { writePrivately } from "./embedded/passwords";

/** When a demonstration begins: the technicians are half-way through, the charge provider comes in. */
const MORNING = localTime("06:10");
/** A demonstration that is started again before this goes on with its morning. */
const NOON = localTime("12:00");

export interface DemoClock {
  /** Milliseconds the demonstration is ahead of the machine's clock. It only ever grows. */
  readonly offset: number;
  /** The day whose morning the demonstration shows. */
  readonly day: LocalDate;
  /** False while that morning is being made; a run killed meanwhile leaves it so. */
  readonly made: boolean;
}

/** What the clock should be at a start: the running morning, or the next one. */
export function clockForStart(kept: DemoClock | undefined, machine: Instant, zone: string): DemoClock {
  const now = instant(machine + (kept?.offset ?? 0));
  if (kept?.made && dateIn(zone, now) === kept.day && timeIn(zone, now) < NOON) return kept;
  // A morning that was cut short is not begun a second time: what was recorded in it stays.
  const after =
    kept === undefined || now > instantAt(zone, kept.day, MORNING) ? now : instantAt(zone, kept.day, MORNING);
  const { day, at } = nextMorning(after, zone);
  return { offset: at - machine, day, made: false };
}

/** The next working day's morning, Monday to Friday, strictly later than `after`. */
export function nextMorning(after: Instant, zone: string): { day: LocalDate; at: Instant } {
  for (let day = dateIn(zone, after); ; day = addDays(day, 1)) {
    const at = instantAt(zone, day, MORNING);
    const working = weekday(day) >= 1 && weekday(day) <= 5;
    if (working && at > after) return { day, at };
  }
}

export const clockFileOf = (folder: string) => path.join(folder, "clock.json");

export function readClock(folder: string): DemoClock | undefined {
  const file = clockFileOf(folder);
  return existsSync(file) ? (JSON.parse(readFileSync(file, "utf8")) as DemoClock) : undefined;
}

export function writeClock(folder: string, clock: DemoClock): void {
  writePrivately(clockFileOf(folder), `${JSON.stringify(clock)}\n`);
}
