import Link from "next/link";
import { clockText } from "@/app/_parts/format";
import { ReadinessMark } from "@/app/_parts/readiness-mark";
import { Said } from "@/app/_parts/said.client";
import type { SupposedRoom } from "@/lib/schemas/what-if";
import styles from "./what-if.module.css";

/** Each touched room, before and after. What changes stands first. */
export function SupposedRooms({ rooms, zone }: { rooms: readonly SupposedRoom[]; zone: string }) {
  if (rooms.length === 0)
    return (
      <p>
        <Said>Nothing of it is fitted or piped in any room.</Said>
      </p>
    );
  const sorted = [...rooms].sort((left, right) => Number(right.changes) - Number(left.changes));
  return (
    <ul className={styles.rooms}>
      {sorted.map((room) => (
        <li key={room.roomId} className={styles.room}>
          <div className={styles.head}>
            <Link href={`/rooms/${room.roomId}`} prefetch={false} className={styles.name}>
              {room.name}
            </Link>
            <ReadinessMark readiness={room.is.state} size={20} />
            <span>would be</span>
            <ReadinessMark readiness={room.wouldBe.state} size={20} />
            {room.whenInUse === "act-now" ? <strong className={styles.pressing}>in use: act now</strong> : null}
            {room.wouldBe.state === "ready-limited" && room.is.forList && !room.wouldBe.forList ? (
              <span>not for its list</span>
            ) : null}
          </div>
          <p className={styles.soft}>{detailOf(room, zone)}</p>
        </li>
      ))}
    </ul>
  );
}

const detailOf = (room: SupposedRoom, zone: string): string =>
  [
    `without ${room.gone.join(", ")}`,
    room.wouldBe.reason ?? "nothing would stand against it",
    room.firstCase ? `first case ${clockText(room.firstCase, zone)}` : "",
    room.changes ? "" : "no change",
  ]
    .filter((part) => part !== "")
    .join(" · ");
