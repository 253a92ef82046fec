import Link from "next/link";
import { clockText } from "@/app/_parts/format";
import type { ReadyByMorning } from "@/lib/schemas/report-ready-by";
import { type Instant, instantOf, timeIn } from "@/lib/units/time";
import { type MorningScale, morningScale, percent, place } from "./morning-scale";
import styles from "./ready-by.module.css";

type Room = ReadyByMorning["rooms"][number];

interface ChartProps {
  morning: ReadyByMorning;
  zone: string;
  now: Instant;
}

/** One line a room: open until it could start, solid from then on, and a bar where its first case came. What is drawn is also written. */
export function MorningChart({ morning, zone, now }: ChartProps) {
  const scale = morningScale(morning, zone);
  const rooms = [...morning.rooms].sort((left, right) => instantOf(left.firstCase) - instantOf(right.firstCase));
  return (
    <>
      <div className={styles.axis} aria-hidden="true">
        <svg className={styles.ticks} aria-hidden="true" focusable="false">
          {scale.ticks.map((at) => (
            <text key={at} x={percent(place(scale, at))} y="12" textAnchor="middle">
              {timeIn(zone, at)}
            </text>
          ))}
        </svg>
      </div>
      <ol className={styles.rooms}>
        {rooms.map((room) => (
          <li key={room.roomId} className={styles.room}>
            <Link href={`/rooms/${room.roomId}`} prefetch={false} className={styles.name}>
              {room.name}
            </Link>
            <Line room={room} scale={scale} now={now} />
            <span className={room.outcome === "in-time" ? styles.said : styles.saidLate}>{inWords(room, zone)}</span>
          </li>
        ))}
      </ol>
      <p className={styles.legend}>
        Thin: not ready. Thick: could start. Bar: first case; where the bar stands on a thin line, the case waited.
      </p>
    </>
  );
}

function Line({ room, scale, now }: { room: Room; scale: MorningScale; now: Instant }) {
  const firstCase = place(scale, instantOf(room.firstCase));
  const ready = room.readyAt === null ? null : place(scale, instantOf(room.readyAt));
  const end = place(scale, Math.min(scale.to, Math.max(now, scale.from)) as Instant);
  return (
    <svg className={styles.line} aria-hidden="true" focusable="false">
      {scale.ticks.map((at) => (
        <line
          key={at}
          className={styles.tick}
          x1={percent(place(scale, at))}
          x2={percent(place(scale, at))}
          y1="0"
          y2="100%"
        />
      ))}
      <line className={styles.waiting} x1="0%" x2={percent(ready ?? end)} y1="50%" y2="50%" />
      {ready === null ? null : (
        <rect
          className={styles.could}
          x={percent(ready)}
          width={percent(Math.max(0, end - ready))}
          y="9"
          height="10"
          rx="3"
        />
      )}
      <svg x={percent(firstCase)} overflow="visible" aria-hidden="true">
        <rect
          className={room.outcome === "late" || room.outcome === "never" ? styles.caseLate : styles.case}
          x="-1.5"
          y="3"
          width="3"
          height="22"
        />
      </svg>
    </svg>
  );
}

function inWords({ outcome, readyAt, firstCase, minutesBefore, reason }: Room, zone: string): string {
  const start = `first case ${clockText(firstCase, zone)}`;
  const ready = readyAt ? clockText(readyAt, zone) : null;
  switch (outcome) {
    case "in-time":
      return `ready ${ready}, ${minutesBefore} min before the ${start}`;
    case "late":
      return `ready ${ready}, ${-(minutesBefore ?? 0)} min after the ${start}${because(reason)}`;
    case "not-yet":
      return `not ready yet, ${start}${because(reason)}`;
    case "never":
      return `not ready that day, ${start}${because(reason)}`;
  }
}

const because = (reason: string | null): string => (reason === null ? "" : `: ${reason}`);
