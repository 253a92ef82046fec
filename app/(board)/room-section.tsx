import Link from "next/link";
import { useId } from "react";
import type { Timestamp } from "@/lib/units/time";
import styles from "./board.module.css";
import { StripTicks } from "./morning-strip";
import { RoomRow } from "./room-row";
import type { BoardSection } from "./sections";
import type { StripScale } from "./strip-scale";

export interface RoomSectionProps {
  section: BoardSection;
  scale: StripScale;
  zone: string;
  /** When the rows were read, if they can no longer be vouched for; null while live. */
  lastKnown: Timestamp | null;
  /** Rooms that the clock has overtaken and that are being judged again. */
  unjudged: ReadonlySet<string>;
  /** Whether a row says for itself that it runs by the weekly template. */
  tellTemplate: boolean;
}

export function RoomSection({ section, scale, zone, lastKnown, unjudged, tellTemplate }: RoomSectionProps) {
  const id = useId();
  return (
    <section aria-labelledby={id} className={styles.section}>
      <div className={styles.sectionHead}>
        <h2 id={id}>
          {section.title} <span className={styles.count}>{section.rooms.length}</span>
        </h2>
        {section.id === "closed" ? null : <ColumnNames scale={scale} zone={zone} />}
      </div>
      {section.id === "closed" ? (
        <ul className={styles.closed}>
          {section.rooms.map((row) => (
            <li key={row.roomId}>
              <Link href={`/rooms/${row.roomId}`} prefetch={false}>
                {row.name}
              </Link>
            </li>
          ))}
        </ul>
      ) : (
        <ul className={styles.rooms}>
          {section.rooms.map((row) => (
            <RoomRow
              key={row.roomId}
              row={row}
              scale={scale}
              zone={zone}
              tellTemplate={tellTemplate}
              lastKnown={lastKnown ?? (unjudged.has(row.roomId) ? row.goodUntil : null)}
            />
          ))}
        </ul>
      )}
    </section>
  );
}

/** For the eye only: every value in a row says itself what it is. */
function ColumnNames({ scale, zone }: { scale: StripScale; zone: string }) {
  return (
    <div className={styles.columns} aria-hidden="true">
      <span>Why, and who is on it</span>
      <StripTicks scale={scale} zone={zone} />
      <span className={styles.right}>Reserve O₂</span>
      <span className={styles.right}>Good until</span>
    </div>
  );
}
