import { readFileSync } from "node:fs";
import { type Instant, instant } from "@/lib/units/time";

/** Tells the time. Domain and commands are handed one; they never look themselves. */
export interface Clock {
  now(): Instant;
}

/** On globalThis, because a page and a route may see two instances of this module and must not see two times. */
const shared = globalThis as { __yokeboardClock?: Clock };

/**
 * The machine's clock, moved by the offset in the file YOKEBOARD_CLOCK_FILE names, if it names one.
 * A demonstration lives on such a shifted morning; a department never does. Read once in a process,
 * so that nothing moves under a running server.
 */
export function systemClock(): Clock {
  shared.__yokeboardClock ??= clockWith(readOffset(process.env.YOKEBOARD_CLOCK_FILE));
  return shared.__yokeboardClock;
}

function clockWith(offset: number): Clock {
  return { now: () => instant(Date.now() + offset) };
}

function readOffset(file: string | undefined): number {
  if (file === undefined || file === "") return 0;
  const { offset } = JSON.parse(readFileSync(file, "utf8")) as { offset?: unknown };
  if (typeof offset !== "number" || !Number.isFinite(offset)) {
    throw new Error(`${file}: "offset" must be a number of milliseconds; it is ${JSON.stringify(offset)}.`);
  }
  return offset;
}
