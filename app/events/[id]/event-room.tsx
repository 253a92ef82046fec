import Link from "next/link";
import { clockText, minutesText } from "@/app/_parts/format";
import { ReadinessMark } from "@/app/_parts/readiness-mark";
import styles from "@/app/events/events.module.css";
import type { EventRoom } from "@/lib/schemas/events";

const LOOKS: Readonly<Record<string, string>> = {
  "pipeline-pressure": "pressure",
  "pipeline-identity": "gas identity",
  "mains-power": "mains power",
};

interface EventRoomProps {
  room: EventRoom;
  zone: string;
  drill: boolean;
  open: boolean;
}

/** What the event means for one room. */
export function EventRoomLine({ room, zone, drill, open }: EventRoomProps) {
  return (
    <li className={styles.room}>
      <div className={styles.roomHead}>
        <Link href={`/rooms/${room.roomId}`} prefetch={false} className={styles.roomName}>
          {room.name}
        </Link>
        <ReadinessMark readiness={room.state} size={22} />
        {room.whenInUse === "act-now" ? <span className={styles.pressing}>In use: act now</span> : null}
        {room.occupancy.state === "in-use" && room.whenInUse !== "act-now" ? <span>in use</span> : null}
        {room.occupancy.state === "closed" ? <span>closed today</span> : null}
        {open && !drill ? <Left room={room} /> : null}
      </div>
      <p className={styles.facts}>
        {room.reason ? `${room.reason} · ` : ""}
        {reserveText(room)}
        {room.firstCase ? ` · first case ${clockText(room.firstCase, zone)}` : ""}
      </p>
    </li>
  );
}

function Left({ room: { left, workstation } }: { room: EventRoom }) {
  if (workstation === null) return <span className={styles.soft}>no workstation</span>;
  if (left.length === 0) return <span className={styles.back}>back in service</span>;
  return <span>still: {left.map((item) => LOOKS[item] ?? item).join(", ")}</span>;
}

function reserveText({ minutesByHand, minutesOnVentilator }: EventRoom): string {
  if (minutesByHand === null) return "reserve oxygen not read";
  return `reserve ${minutesText(minutesByHand)} by hand, ${minutesText(minutesOnVentilator ?? 0)} on the ventilator`;
}
