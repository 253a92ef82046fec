import { type Instant, timeIn } from "@/lib/units/time";
import styles from "./board.module.css";

export function LiveLine({ live, now, zone }: { live: boolean; now: Instant; zone: string }) {
  return (
    <span className={styles.live}>
      <svg width="10" height="10" viewBox="0 0 10 10" aria-hidden="true">
        {live ? (
          <circle cx="5" cy="5" r="4" fill="currentColor" />
        ) : (
          <path d="M1 1l8 8M9 1L1 9" stroke="currentColor" strokeWidth="2" />
        )}
      </svg>
      <span className={styles.liveWord}>{live ? "live" : "not live"}</span> {timeIn(zone, now)}
    </span>
  );
}
