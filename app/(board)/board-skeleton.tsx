import { Page } from "@/app/_ui/page";
import { VisuallyHidden } from "@/app/_ui/visually-hidden";
import styles from "./board.module.css";
import skeleton from "./skeleton.module.css";

const ROWS = ["1", "2", "3", "4", "5", "6", "7", "8", "9", "10"];

/** The board's own places, empty: when the rooms come, nothing moves. It stands still, and shows no state. */
export function BoardSkeleton({ name }: { name: string }) {
  return (
    <Page>
      <div className={styles.top}>
        <h1 className={styles.place}>
          Rooms <span>{name}</span>
        </h1>
      </div>
      <p className={styles.answer} role="status">
        <span className={skeleton.reading}>Reading the rooms …</span>
      </p>
      <div className={skeleton.bar} aria-hidden="true" />
      <div className={styles.rooms} aria-hidden="true">
        {ROWS.map((row) => (
          <div key={row} className={skeleton.row}>
            <span className={skeleton.short} />
            <span className={skeleton.middle} />
            <span className={skeleton.long} />
          </div>
        ))}
      </div>
      <VisuallyHidden>No state is known yet.</VisuallyHidden>
    </Page>
  );
}
