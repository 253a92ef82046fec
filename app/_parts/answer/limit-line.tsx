import { valueIn } from "@/lib/units/quantity";
import type { Limits } from "./answer-words";
import type { Scale } from "./reading";
import styles from "./reading.module.css";

const WIDTH = 600;
const EDGE = 12;

/**
 * The scale of the reading on one line: what is within the limits, and where the reading stands. A picture of words that stand
 * beside it, so a screen reader is spared it.
 */
export function LimitLine({ limits, scale, value }: { limits: Limits; scale: Scale; value: number | null }) {
  if (!limits || (!limits.atLeast && !limits.atMost)) return null;
  const least = limits.atLeast ? valueIn(limits.atLeast, scale.unit) : null;
  const most = limits.atMost ? valueIn(limits.atMost, scale.unit) : null;
  const [from, to] = shownRange(scale, least, most, value);
  const place = (at: number) => EDGE + ((Math.min(Math.max(at, from), to) - from) / (to - from)) * (WIDTH - 2 * EDGE);
  const left = least === null ? EDGE : place(least);
  const right = most === null ? WIDTH - EDGE : place(most);
  return (
    <svg
      className={styles.limits}
      viewBox={`0 0 ${WIDTH} 30`}
      preserveAspectRatio="none"
      aria-hidden="true"
      focusable="false"
    >
      <rect className={styles.scale} x={EDGE} y="10" width={WIDTH - 2 * EDGE} height="10" />
      <rect className={styles.good} x={left} y="10" width={Math.max(0, right - left)} height="10" />
      {least === null ? null : <path className={styles.bound} d={`M${left} 4v22`} vectorEffect="non-scaling-stroke" />}
      {most === null ? null : <path className={styles.bound} d={`M${right} 4v22`} vectorEffect="non-scaling-stroke" />}
      {value === null ? null : (
        <path className={styles.reading} d={`M${place(value)} 15h0.01`} vectorEffect="non-scaling-stroke" />
      )}
    </svg>
  );
}

/** A limit near one end of a wide scale would be a hair: show as much of the scale as its limits and the reading need. */
function shownRange(
  { least, most }: Scale,
  low: number | null,
  high: number | null,
  value: number | null,
): [number, number] {
  const marks = [low, high, value].filter((mark): mark is number => mark !== null);
  const top = Math.max(...marks);
  const bottom = Math.min(...marks);
  const room = high !== null && low !== null ? Math.max((high - low) * 2, top - bottom) : Math.max(top, 1);
  return [Math.max(least, bottom - room), Math.min(most, Math.max(top + room, bottom + 1))];
}
