import type { BoardRow } from "@/lib/schemas/board";
import type { Timestamp } from "@/lib/units/time";
import { LocalTime } from "./local-time";
import styles from "./marks-line.module.css";
import { PersonName } from "./person-name";

/** The two marks of a checked workstation, each with its name and time, and its day when that is not today; the second may still be owed, and then says so. */
export function MarksLine({ marks, zone, now }: { marks: BoardRow["marks"]; zone: string; now: Timestamp }) {
  const { equipment, provider } = marks;
  if (!equipment && !provider) return null;
  return (
    <>
      {equipment ? (
        <>
          Equipment <LocalTime at={equipment.at} zone={zone} now={now} /> <PersonName name={equipment.name} />
          {" · "}
        </>
      ) : null}
      {provider ? (
        <>
          provider <LocalTime at={provider.at} zone={zone} now={now} /> <PersonName name={provider.name} />
        </>
      ) : (
        <span className={styles.owed}>provider’s check still owed</span>
      )}
    </>
  );
}
