import type { ReadyByMorning } from "@/lib/schemas/report-ready-by";
import { dateIn, HOUR, type Instant, instant, instantAt, instantOf, localTime } from "@/lib/units/time";

/** The stretch of a morning that its chart shows, with a tick at each hour of the facility's clock. */
export interface MorningScale {
  readonly from: Instant;
  readonly to: Instant;
  readonly ticks: readonly Instant[];
}

/** Work on the rooms begins about now; what was ready before is drawn from the left edge. */
const DAWN = localTime("05:00");
const AHEAD = 30 * 60_000;
const LONGEST = 10 * HOUR;

export function morningScale({ rooms }: ReadyByMorning, zone: string): MorningScale {
  const cases = rooms.map(({ firstCase }) => instantOf(firstCase));
  const ready = rooms.flatMap(({ readyAt }) => (readyAt ? [instantOf(readyAt)] : []));
  const first = Math.min(...cases);
  const dawn = instantAt(zone, dateIn(zone, instant(first)), DAWN);
  const from = instant(Math.min(dawn, first));
  const last = Math.max(...cases, ...ready) + AHEAD;
  const to = instant(Math.min(last, from + LONGEST));
  const ticks: Instant[] = [];
  for (let at = from + HOUR; at < to; at += HOUR) ticks.push(instant(at));
  return { from, to, ticks };
}

/** Where a moment stands, in percent of the width, kept inside the frame. */
export function place({ from, to }: MorningScale, at: Instant): number {
  return Math.min(100, Math.max(0, (100 * (at - from)) / (to - from)));
}

export const percent = (value: number): string => `${Math.round(value * 100) / 100}%`;
