import type { Timestamp } from "@/lib/units/time";
import { clockText, whenText } from "./format";

/** A moment on the facility's clock; with `now`, another day is named. */
export function LocalTime({ at, zone, now }: { at: Timestamp; zone: string; now?: Timestamp }) {
  return <time dateTime={at}>{now === undefined ? clockText(at, zone) : whenText(at, now, zone)}</time>;
}
