import { minutesText } from "@/app/_parts/format";
import { rolesInWords } from "@/app/_parts/words";
import { classNames } from "@/app/_ui/class-names";
import type { RoomView } from "@/lib/schemas/room";
import styles from "./room.module.css";
import why from "./why.module.css";

type Action = RoomView["clears"][number][number];

/** The shortest way to ready for the list: what, how long, and who may. It holds if every step ends well. */
export function WayToReady({ way }: { way: RoomView["way"] }) {
  if (!way || way.actions.length === 0) return null;
  return (
    <div className={why.way}>
      <h3 className={why.wayHead}>
        <span>Shortest way to ready</span> <span>{minutesText(way.minutes)}</span>
      </h3>
      <ol className={classNames(why.steps, way.actions.length === 1 && why.single)}>
        {way.actions.map((action) => (
          <li key={keyOf(action)}>
            {action.text}
            <span className={styles.soft}> {howLong(action)}</span>
          </li>
        ))}
      </ol>
    </div>
  );
}

/** Each of these alone clears one reason. */
export function AnyOf({ actions }: { actions: readonly Action[] }) {
  if (actions.length === 0) return null;
  return (
    <ul>
      {actions.map((action) => (
        <li key={keyOf(action)}>
          {action.text}: {howLong(action)}
        </li>
      ))}
    </ul>
  );
}

const keyOf = ({ kind, text }: Action): string => `${kind}:${text}`;

const howLong = ({ minutes, mayDo, together }: Action): string =>
  `${minutesText(minutes)}, ${mayDo.length >= MANY && !together ? "anybody who checks" : rolesInWords(mayDo, together ? "and" : "or")}`;

/** As many roles as check; naming each would bury the minutes. */
const MANY = 4;
