import Link from "next/link";
import { minutesText } from "@/app/_parts/format";
import { Panel } from "@/app/_ui/panel";
import type { PickList } from "@/lib/schemas/work";
import styles from "./pick-list.module.css";

/** The rooms in the order in which they are passed, each with its tasks and a box to tick on paper. */
export function Walk({ route }: { route: PickList["route"] }) {
  return route.map(({ suite, rooms }) => (
    <Panel key={`${suite} ${rooms[0]?.room}`} title={suite ?? "Spares, in no room"}>
      <ol className={styles.rooms}>
        {rooms.map(({ room, tasks }) => (
          <li key={room} className={styles.room}>
            <h3>{room}</h3>
            <ul className={styles.tasks}>
              {tasks.map(({ key, title, minutes }) => (
                <li key={key} className={styles.task}>
                  <span className={styles.box} aria-hidden="true" />
                  <Link href={`/tasks/${encodeURIComponent(key)}`} prefetch={false}>
                    {title}
                  </Link>
                  <span className={styles.soft}>{minutesText(minutes)}</span>
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ol>
    </Panel>
  ));
}
