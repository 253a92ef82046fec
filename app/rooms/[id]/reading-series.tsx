import { dayText, quantityText, whenText } from "@/app/_parts/format";
import type { RoomView } from "@/lib/schemas/room";
import { dateIn, instantOf, type Timestamp } from "@/lib/units/time";
import styles from "./reading-series.module.css";
import { seriesFrame } from "./series-scale";

interface SeriesProps {
  part: RoomView["parts"][number];
  now: Timestamp;
  zone: string;
}

const percent = (value: number): string => `${Math.round(value * 10) / 10}%`;

/** The readings of the last weeks as a line with its limits, and the same figures as a list to open. */
export function ReadingSeries({ part, now, zone }: SeriesProps) {
  const frame = seriesFrame(part, quantityText);
  const [first, last] = [part.series[0], part.series.at(-1)];
  if (!frame || !first || !last) return null;
  const day = (at: string) => dayText(dateIn(zone, instantOf(at)));
  return (
    <div className={styles.series}>
      <svg className={styles.frame} aria-hidden="true" focusable="false">
        {frame.limits.map(({ words, y }) => (
          <g key={words}>
            <line className={styles.limit} x1="0%" x2="100%" y1={percent(y)} y2={percent(y)} />
            <text className={styles.word} x="100%" y={percent(y)} dx="-4" dy="-4" textAnchor="end">
              {words}
            </text>
          </g>
        ))}
        {frame.dots.slice(1).map((dot, place) => {
          const before = frame.dots[place];
          return before ? (
            <line
              key={dot.at}
              className={styles.line}
              x1={percent(before.x)}
              y1={percent(before.y)}
              x2={percent(dot.x)}
              y2={percent(dot.y)}
            />
          ) : null;
        })}
        {frame.dots.map((dot) => (
          <Dot key={dot.at} x={dot.x} y={dot.y} failed={dot.failed} />
        ))}
      </svg>
      <p className={styles.ends} aria-hidden="true">
        <span>{day(first.at)}</span>
        <span>{day(last.at)}</span>
      </p>
      <details className={styles.more}>
        <summary>{part.series.length} readings</summary>
        <ol className={styles.list}>
          {[...part.series].reverse().map(({ at, reading, failed }) => (
            <li key={at}>
              {quantityText(reading)}
              {failed ? ", failed" : ""} <span className={styles.soft}>{whenText(at, now, zone)}</span>
            </li>
          ))}
        </ol>
      </details>
    </div>
  );
}

/** A failed reading is a cross, not only another colour. */
function Dot({ x, y, failed }: { x: number; y: number; failed: boolean }) {
  return (
    <svg x={percent(x)} y={percent(y)} overflow="visible" aria-hidden="true">
      {failed ? <path className={styles.cross} d="M-4-4l8 8m0-8l-8 8" /> : <circle className={styles.dot} r="3" />}
    </svg>
  );
}
