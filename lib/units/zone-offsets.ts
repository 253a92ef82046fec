import { DAY, type Instant, instant, later, offsetAt, type ZoneOffsets } from "./time";

/** Far enough for service dates and history on screen; beyond it each machine asks its own zone data. */
const REACH = 400 * DAY;
const SECOND = 1_000;

/** The offsets of a zone for a year and more on both sides of a moment. Steps are exact to the second, the grain of the zone data. */
export function offsetsAround(zone: string, at: Instant): ZoneOffsets {
  const from = later(at, -REACH);
  const to = later(at, REACH);
  const steps = [{ from: from as number, offset: offsetAt(from, zone) }];
  for (let day = from; day < to; day = later(day, DAY)) {
    const next = later(day, DAY);
    const offset = offsetAt(next, zone);
    if (offset !== steps.at(-1)?.offset) steps.push({ from: changeBetween(zone, day, next), offset });
  }
  return { zone, steps, to };
}

/** The first second of the new offset, between two instants that differ in it. */
function changeBetween(zone: string, before: Instant, after: Instant): number {
  const old = offsetAt(before, zone);
  let low = Math.floor(before / SECOND);
  let high = Math.ceil(after / SECOND);
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (offsetAt(instant(middle * SECOND), zone) === old) low = middle;
    else high = middle;
  }
  return high * SECOND;
}
