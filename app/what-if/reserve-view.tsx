import Link from "next/link";
import { minutesText, numberText, whenText } from "@/app/_parts/format";
import { Said } from "@/app/_parts/said.client";
import { Panel } from "@/app/_ui/panel";
import type { ReserveRoom, WhatIfView } from "@/lib/schemas/what-if";
import styles from "./what-if.module.css";

interface ReserveProps {
  reserve: NonNullable<WhatIfView["reserve"]>;
  zone: string;
  now: string;
}

/** Who is out first: bars, with their minutes beside them. */
export function ReserveView({ reserve, zone, now }: ReserveProps) {
  const longest = Math.max(1, ...reserve.rooms.map(({ minutesByHand }) => minutesByHand ?? 0));
  return (
    <Panel title={<Said>How long each room's reserve lasts</Said>} aside="shortest first, to the residual pressure">
      <Together reserve={reserve} />
      <ol className={styles.bars}>
        {reserve.rooms.map((room) => (
          <Bar key={room.roomId} room={room} longest={longest} zone={zone} now={now} />
        ))}
      </ol>
      <p className={styles.soft}>
        Solid: on the ventilator. Outline: by hand. From the low end of what the gauge says, at the site's flows; a
        cylinder nobody read open counts as unknown and stands first.
      </p>
    </Panel>
  );
}

function Together({ reserve: { store, byHand, onVentilator } }: { reserve: ReserveProps["reserve"] }) {
  return (
    <ul className={styles.facts}>
      <li>
        In the stores: <strong>{store.cylinders} full oxygen cylinders</strong>, {numberText(store.litres, 0)} L to the
        residual.
      </li>
      {onVentilator ? (
        <li>
          On the ventilator: {onVentilator.firstOut.room} first, after{" "}
          <strong>{minutesText(onVentilator.firstOut.minutes)}</strong>; all rooms at most{" "}
          <strong>{minutesText(onVentilator.allRooms)}</strong> with the stores shared out.
        </li>
      ) : null}
      {byHand ? (
        <li>
          By hand: {byHand.firstOut.room} first, after <strong>{minutesText(byHand.firstOut.minutes)}</strong>; all
          rooms at most <strong>{minutesText(byHand.allRooms)}</strong>.
        </li>
      ) : null}
      <li className={styles.soft}>At most: cylinders are whole, and people walk.</li>
    </ul>
  );
}

interface BarProps {
  room: ReserveRoom;
  longest: number;
  zone: string;
  now: string;
}

function Bar({ room, longest, zone, now }: BarProps) {
  const { minutesByHand, minutesOnVentilator } = room;
  const width = (minutes: number | null) => `${Math.round(((minutes ?? 0) / longest) * 1000) / 10}%`;
  return (
    <li className={styles.bar}>
      <Link href={`/rooms/${room.roomId}`} prefetch={false} className={styles.name}>
        {room.room}
      </Link>
      <svg className={styles.line} aria-hidden="true" focusable="false">
        <rect className={styles.byHand} x="0" y="5" height="16" rx="3" width={width(minutesByHand)} />
        <rect className={styles.onVentilator} x="0" y="8" height="10" rx="2" width={width(minutesOnVentilator)} />
      </svg>
      <span>{wordsOf(room, zone, now)}</span>
    </li>
  );
}

function wordsOf(room: ReserveRoom, zone: string, now: string): string {
  const use = room.inUse ? "in use · " : "";
  const { minutesByHand, minutesOnVentilator, drivenByOxygen, readAt } = room;
  if (minutesByHand === null) return `${use}gauge not read: unknown`;
  const read = readAt ? `, read ${whenText(readAt, now, zone)}` : "";
  if (!drivenByOxygen) return `${use}${minutesText(minutesByHand)}, the drive takes no oxygen${read}`;
  return `${use}${minutesText(minutesOnVentilator ?? 0)} on the ventilator, ${minutesText(minutesByHand)} by hand${read}`;
}
