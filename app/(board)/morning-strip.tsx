import { clockText } from "@/app/_parts/format";
import { isPressing } from "@/app/_parts/room-standing";
import { classNames } from "@/app/_ui/class-names";
import type { BoardRow } from "@/lib/schemas/board";
import { type Instant, instantOf, timeIn, timestampOf } from "@/lib/units/time";
import styles from "./strip.module.css";
import { inSight, percent, place, type StripBlock, type StripScale, workBlocks, workEnd } from "./strip-scale";

/**
 * The room's morning: now, the planned work, decide-by and the first case on one line, so that late or not is seen and not computed.
 * Everything it shows is also written in the row, so a screen reader skips it.
 */
export function MorningStrip({ row, scale, zone }: { row: BoardRow; scale: StripScale; zone: string }) {
  const blocks = workBlocks(row.work, scale.now);
  const end = workEnd(blocks);
  const firstCase = row.firstCase ? instantOf(row.firstCase) : null;
  const late = row.occupancy.state === "idle" && firstCase !== null && end !== null && end > firstCase;
  const stops = row.state === "do-not-use" || row.state === "out-of-service";
  return (
    <svg className={styles.strip} aria-hidden="true" focusable="false">
      {row.occupancy.state === "in-use" ? <Busy since={instantOf(row.occupancy.since)} scale={scale} /> : null}
      {scale.ticks.map((at) => (
        <line
          key={at}
          className={styles.tick}
          x1={percent(place(scale, at))}
          x2={percent(place(scale, at))}
          y1="-200"
          y2="236"
        />
      ))}
      {blocks.map((block) => (
        <Block key={block.key} block={block} scale={scale} stops={stops} />
      ))}
      {row.decideBy && inSight(scale, instantOf(row.decideBy)) ? (
        <DecideBy at={instantOf(row.decideBy)} presses={isPressing(row, scale.now)} scale={scale} />
      ) : null}
      {firstCase !== null && inSight(scale, firstCase) && row.occupancy.state === "idle" ? (
        <FirstCase at={firstCase} late={late} scale={scale} zone={zone} />
      ) : null}
      {inSight(scale, scale.now) ? <NowLine scale={scale} /> : null}
    </svg>
  );
}

function NowLine({ scale }: { scale: StripScale }) {
  const x = percent(place(scale, scale.now));
  return <line className={styles.now} x1={x} x2={x} y1="-200" y2="236" />;
}

function Busy({ since, scale }: { since: Instant; scale: StripScale }) {
  const from = Math.min(100, Math.max(0, place(scale, since)));
  return <rect className={styles.busy} x={percent(from)} y="13" width={percent(100 - from)} height="10" rx="5" />;
}

/** About how wide a label is, in percent of the strip; a narrower block goes without, for who is on it stands in the row. */
const labelWidth = (label: string): number => 4 + 2.1 * label.length;

function Block({ block, scale, stops }: { block: StripBlock; scale: StripScale; stops: boolean }) {
  const from = Math.max(0, place(scale, block.from));
  const to = Math.min(100, place(scale, block.to));
  if (to <= from) return null;
  const look = classNames(stops ? styles.blockStop : styles.block, !block.claimed && styles.blockOpen);
  return (
    <>
      <rect className={look} x={percent(from)} y="8" width={percent(to - from)} height="20" rx="4" />
      {to - from >= labelWidth(block.label) ? (
        <svg x={percent(from)} y="8" width={percent(to - from)} height="20" overflow="hidden" aria-hidden="true">
          <text className={styles.label} x="7" y="15">
            {block.label}
          </text>
        </svg>
      ) : null}
    </>
  );
}

function DecideBy({ at, presses, scale }: { at: Instant; presses: boolean; scale: StripScale }) {
  return (
    <svg x={percent(place(scale, at))} y="0" overflow="visible" aria-hidden="true">
      <path className={presses ? styles.decidePressing : styles.decide} d="M-6 0h12L0 9z" />
    </svg>
  );
}

function FirstCase({ at, late, scale, zone }: { at: Instant; late: boolean; scale: StripScale; zone: string }) {
  const x = place(scale, at);
  const nearEnd = x > 84;
  return (
    <svg x={percent(x)} y="0" overflow="visible" aria-hidden="true">
      <rect className={late ? styles.caseLate : styles.case} x="-1.5" y="4" width="3" height="28" />
      <text
        className={late ? styles.textLate : undefined}
        x={nearEnd ? -7 : 7}
        y="23"
        textAnchor={nearEnd ? "end" : "start"}
      >
        {clockText(timestampOf(at), zone)}
        {late ? " late" : ""}
      </text>
    </svg>
  );
}

/** The times above the strips. */
export function StripTicks({ scale, zone }: { scale: StripScale; zone: string }) {
  const now = place(scale, scale.now);
  const free = scale.ticks.filter((at) => Math.abs(place(scale, at) - now) > 14 && place(scale, at) < 97);
  return (
    <svg className={styles.ticks} aria-hidden="true" focusable="false">
      {free.map((at) => (
        <text
          key={at}
          className={scale.ticks.indexOf(at) % 2 === 0 ? styles.between : undefined}
          x={percent(place(scale, at))}
          y="12"
          textAnchor="middle"
        >
          {timeIn(zone, at)}
        </text>
      ))}
      {inSight(scale, scale.now) ? (
        <text className={styles.nowText} x={percent(now)} y="12" textAnchor="middle">
          {timeIn(zone, scale.now)}
        </text>
      ) : null}
    </svg>
  );
}
