import Link from "next/link";
import type { ReactNode } from "react";
import { dayText, numberText } from "@/app/_parts/format";
import type { Severity } from "@/lib/domain/judgement";
import type { ReasonsReport } from "@/lib/schemas/report-reasons";
import { addDays, daysBetween, localDate } from "@/lib/units/time";
import styles from "./reasons.module.css";

type Line = ReasonsReport["reasons"][number];

const EFFECT: Record<Severity, string> = {
  out: "out of service",
  stops: "do not use",
  owed: "to check",
  limits: "a limit",
  due: "work",
  note: "a note",
};

/** The most frequent first; on a phone each is a card. The bars are the days, each as high as the share of rooms that showed it. */
export function ReasonsList({ report }: { report: ReasonsReport }) {
  if (report.reasons.length === 0) return null;
  const days = daysOf(report);
  const rooms = Math.max(1, Math.round(report.roomDays / Math.max(1, days.length)));
  return (
    <section aria-label="Reasons by rule">
      <ColumnNames />
      <ol className={styles.list}>
        {report.reasons.map((line) => (
          <li key={line.rule} className={styles.line}>
            <div className={styles.what}>
              <h2>{line.inBrief}</h2>
              <p className={styles.soft}>{line.what}</p>
            </div>
            <Value name="Effect">{EFFECT[line.severity]}</Value>
            <Value name="Room-days">
              {numberText(line.roomDays)} <span className={styles.soft}>of {numberText(report.roomDays)}</span>
            </Value>
            <div className={styles.days}>
              <Days line={line} days={days} rooms={rooms} />
            </div>
            <Value name="Until gone, mean">
              {line.hoursToCleared === null ? "n/a" : hoursText(line.hoursToCleared)}
            </Value>
            <Where line={line} />
          </li>
        ))}
      </ol>
    </section>
  );
}

/** For the eye only: every value says itself what it is. */
function ColumnNames() {
  return (
    <div className={styles.columns} aria-hidden="true">
      <span>Reason</span>
      <span>Effect</span>
      <span>Room-days</span>
      <span>By day</span>
      <span>Until gone, mean</span>
      <span>Where most</span>
    </div>
  );
}

function Value({ name, children }: { name: string; children: ReactNode }) {
  return (
    <p>
      <span className={styles.valueName}>{name}: </span>
      {children}
    </p>
  );
}

function daysOf({ from, to }: ReasonsReport): string[] {
  const first = localDate(from);
  return Array.from({ length: daysBetween(first, localDate(to)) + 1 }, (_, day) => addDays(first, day));
}

const hoursText = (hours: number): string =>
  hours < 1 ? `${numberText(Math.round(hours * 60), 0)} min` : `${numberText(hours)} h`;

const HEIGHT = 32;
const STEP = 9;
const MOST_DRAWN = 62;

function Days({ line, days, rooms }: { line: Line; days: readonly string[]; rooms: number }) {
  const drawn = days.slice(-MOST_DRAWN);
  const counts = new Map(line.days.map(({ date, rooms: count }) => [date, count]));
  const most = [...counts].sort((left, right) => right[1] - left[1])[0];
  const label = most ? `Most on ${dayText(most[0])}: ${most[1]} of ${rooms} rooms` : "On no day";
  const width = drawn.length * STEP;
  return (
    <svg className={styles.chart} width={width} height={HEIGHT + 1} role="img" aria-label={label}>
      <title>{label}</title>
      <line className={styles.ground} x1="0" x2={width} y1={HEIGHT + 0.5} y2={HEIGHT + 0.5} />
      {drawn.map((date, place) => {
        const height = (HEIGHT * Math.min(rooms, counts.get(date) ?? 0)) / rooms;
        return (
          <rect
            key={date}
            className={styles.bar}
            x={place * STEP + 1}
            y={HEIGHT - height}
            width={STEP - 2}
            height={height}
          />
        );
      })}
    </svg>
  );
}

const NAMED = 3;

function Where({ line: { rooms } }: { line: Line }) {
  return (
    <ul className={styles.where}>
      {rooms.slice(0, NAMED).map(({ roomId, name, days, text }) => (
        <li key={roomId}>
          <Link href={`/rooms/${roomId}`} prefetch={false}>
            {name}
          </Link>{" "}
          <span className={styles.soft}>
            {days} {days === 1 ? "day" : "days"}; last: {text}
          </span>
        </li>
      ))}
      {rooms.length > NAMED ? <li className={styles.soft}>and {rooms.length - NAMED} more rooms</li> : null}
    </ul>
  );
}
