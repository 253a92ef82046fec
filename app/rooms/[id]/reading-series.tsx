import { dayText, quantityText, whenText } from "@/app/_parts/format";
import type { RoomView } from "@/lib/schemas/room";
import { quantity, type Unit } from "@/lib/units/quantity";
import { dateIn, instantOf, type Timestamp } from "@/lib/units/time";
import styles from "./reading-series.module.css";
import { type SeriesFrame, seriesFrame } from "./series-scale";

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
        {frame.ahead ? <Ahead ahead={frame.ahead} /> : null}
        {frame.dots.map((dot) => (
          <Dot key={dot.at} x={dot.x} y={dot.y} failed={dot.failed} />
        ))}
      </svg>
      <p className={styles.ends} aria-hidden="true">
        <span>{day(first.at)}</span>
        <span>{day(frame.end)}</span>
      </p>
      {part.trend ? <p className={styles.trend}>{trendSentence(part.trend, last.reading.unit)}</p> : null}
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

/** The rate at which it moves, and when its limit would be met if it went on so. */
function trendSentence({ slope, crossing, from, to }: NonNullable<SeriesProps["part"]["trend"]>, unit: Unit): string {
  const rate = `${slope.value > 0 ? "Rising" : "Falling"} by ${quantityText(quantity(Math.abs(slope.value), unit))} a day`;
  const range = to === null ? `${dayText(from)} at the earliest` : `between ${dayText(from)} and ${dayText(to)}`;
  return `${rate}: at its limit about ${dayText(crossing)}, ${range} (95 of 100).`;
}

/** Dashed and hollow: not read, only expected. */
function Ahead({ ahead }: { ahead: NonNullable<SeriesFrame["ahead"]> }) {
  const { from, to, between } = ahead;
  return (
    <g>
      <line
        className={styles.between}
        x1={percent(between.left)}
        x2={percent(between.right)}
        y1={percent(between.y)}
        y2={percent(between.y)}
      />
      <line className={styles.ahead} x1={percent(from.x)} y1={percent(from.y)} x2={percent(to.x)} y2={percent(to.y)} />
    </g>
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
