import styles from "@/app/events/events.module.css";
import type { EventView } from "@/lib/schemas/events";

/** What to do at once, in order, with what to beware of. */
export function EmergencyCard({ card }: { card: EventView["card"] }) {
  return (
    <>
      <ol className={styles.card}>
        {card.steps.map(({ act, beware }) => (
          <li key={act}>
            <span className={styles.act}>{act}</span>
            {beware ? <span className={styles.beware}>{beware}</span> : null}
          </li>
        ))}
      </ol>
      <p className={styles.soft}>{card.source}</p>
    </>
  );
}
