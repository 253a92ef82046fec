"use client";

import Link from "next/link";
import { type ReactNode, useId, useMemo, useState } from "react";
import { longDayText } from "@/app/_parts/format";
import { ReadinessMark } from "@/app/_parts/readiness-mark";
import { RoomsTabs } from "@/app/_parts/rooms-tabs";
import { LinkButton } from "@/app/_ui/link-button";
import { Page, PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import type { PastDay } from "@/lib/schemas/as-of";
import { addDays, type Instant, instant, instantOf, localDate, MINUTE, timeIn, timestampOf } from "@/lib/units/time";
import { countThen, dayAt, piecesOf, type RoomThen } from "./day-at";
import styles from "./moments.module.css";
import { PastNotice } from "./past-notice";

const STEP = 5 * MINUTE;

/** A slider over one check day. Arrow keys go five minutes, Page Up and Page Down half an hour, Home and End to its ends. */
export function DaySlider({ day, at: asked }: { day: PastDay; at: string | null }) {
  const zone = day.facility.timeZone;
  const from = instantOf(day.from);
  const to = instantOf(day.to);
  const [at, setAt] = useState<Instant>(clamp(asked === null ? startOf(day) : instantOf(asked), from, to));
  const rooms = useMemo(() => dayAt(day, at), [day, at]);
  const { good, of } = countThen(rooms);
  const date = localDate(day.date);
  return (
    <Page>
      <RoomsTabs />
      <PageHeading
        title={`Earlier: ${longDayText(day.date)}`}
        sub={day.facility.name}
        actions={<DayLinks before={addDays(date, -1)} after={addDays(date, 1)} isToday={instantOf(day.at) <= to} />}
      />
      <PastNotice at={at} zone={zone} />
      <TimeSlider from={from} to={to} at={at} zone={zone} onChange={setAt} />
      <p className={styles.answer} aria-live="polite">
        At {timeIn(zone, at)}, {good} of {of} rooms could start or were in use.
      </p>
      <Panel title="Rooms then" aside="each line is the whole day; the mark is the moment">
        <ul className={styles.rooms}>
          {rooms.map((room) => (
            <RoomLine key={room.room.roomId} then={room} day={day} at={at} />
          ))}
        </ul>
      </Panel>
    </Page>
  );
}

/** The morning is looked back at from its first hour. */
const startOf = (day: PastDay): Instant => {
  const from = instantOf(day.from);
  const cases = day.rooms.flatMap(({ firstCase }) => (firstCase ? [instantOf(firstCase)] : []));
  return cases.length === 0 ? from : instant(Math.min(...cases) - 60 * MINUTE);
};

const clamp = (at: number, from: number, to: number): Instant => instant(Math.min(to, Math.max(from, at)));

interface SliderProps {
  from: Instant;
  to: Instant;
  at: Instant;
  zone: string;
  onChange: (at: Instant) => void;
}

function TimeSlider({ from, to, at, zone, onChange }: SliderProps) {
  const id = useId();
  const steps = Math.max(1, Math.ceil((to - from) / STEP));
  return (
    <div className={styles.slider}>
      <label htmlFor={id}>Time of day</label>
      <input
        id={id}
        type="range"
        min={0}
        max={steps}
        step={1}
        value={Math.round((at - from) / STEP)}
        aria-valuetext={timeIn(zone, at)}
        onChange={(event) => onChange(clamp(from + Number(event.target.value) * STEP, from, to))}
        onKeyDown={(event) => {
          if (event.key !== "PageUp" && event.key !== "PageDown") return;
          event.preventDefault();
          onChange(clamp(at + (event.key === "PageUp" ? 6 : -6) * STEP, from, to));
        }}
      />
      <output htmlFor={id} className={styles.time}>
        {timeIn(zone, at)}
      </output>
    </div>
  );
}

function DayLinks({ before, after, isToday }: { before: string; after: string; isToday: boolean }): ReactNode {
  return (
    <>
      <LinkButton href={`/moments?date=${before}`} look="quiet">
        Day before
      </LinkButton>
      {isToday ? null : (
        <LinkButton href={`/moments?date=${after}`} look="quiet">
          Day after
        </LinkButton>
      )}
    </>
  );
}

function RoomLine({ then, day, at }: { then: RoomThen; day: PastDay; at: Instant }) {
  const { room, stretch, busy } = then;
  return (
    <li className={styles.room}>
      <Link
        href={`/moments/rooms/${room.roomId}?at=${encodeURIComponent(timestampOf(at))}`}
        prefetch={false}
        className={styles.name}
      >
        {room.name}
      </Link>
      <DayStrip then={then} day={day} at={at} />
      <span className={styles.state}>
        {busy === "closed" ? <span>closed</span> : null}
        {busy === "in-use" ? <span>in use · </span> : null}
        {busy === "closed" ? null : stretch ? <ReadinessMark readiness={stretch.state} size={20} /> : "not judged yet"}
        {busy !== "closed" && stretch?.headline ? <span className={styles.why}>{stretch.headline}</span> : null}
      </span>
    </li>
  );
}

/** What it shows is also written beside it. Heights tell the states apart, colour only repeats them. */
function DayStrip({ then, day, at }: { then: RoomThen; day: PastDay; at: Instant }) {
  const pieces = piecesOf(then.room, day);
  const from = instantOf(day.from);
  const mark = (at - from) / Math.max(1, instantOf(day.to) - from);
  return (
    <svg className={styles.strip} aria-hidden="true" focusable="false">
      {pieces.map((piece) => (
        <rect
          key={piece.from}
          className={styles[piece.state]}
          x={percent(piece.from)}
          width={percent(piece.to - piece.from)}
          y={24 - HEIGHT[piece.state]}
          height={HEIGHT[piece.state]}
        />
      ))}
      <line className={styles.now} x1={percent(mark)} x2={percent(mark)} y1="0" y2="28" />
    </svg>
  );
}

const HEIGHT = { ready: 16, "ready-limited": 12, "to-check": 8, "do-not-use": 5, "out-of-service": 2 } as const;
const percent = (share: number): string => `${Math.round(share * 10_000) / 100}%`;
