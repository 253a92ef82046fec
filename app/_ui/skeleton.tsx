import { classNames } from "./class-names";
import styles from "./skeleton.module.css";

interface SkeletonProps {
  /** What is being read, as "the rooms". */
  what: string;
  /** How many lines its list will about have. */
  lines?: number;
  /** The lines stand below a picture of this height. */
  picture?: "none" | "low" | "tall";
}

/** The place of something that is still being read: about as high as it will be, standing still, and telling nothing. */
export function Skeleton({ what, lines = 8, picture = "none" }: SkeletonProps) {
  return (
    <>
      <p className={styles.reading} role="status">
        Reading {what} …
      </p>
      {picture === "none" ? null : <div className={classNames(styles.plate, styles[picture])} aria-hidden="true" />}
      <div className={styles.plate} aria-hidden="true">
        {Array.from({ length: lines }, (_, line) => line + 1).map((line) => (
          <div key={line} className={styles.line}>
            <span className={styles.short} />
            <span className={styles.middle} />
            <span className={styles.long} />
          </div>
        ))}
      </div>
    </>
  );
}
