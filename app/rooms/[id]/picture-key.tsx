import styles from "./gas-path.module.css";

/** What the small signs of the picture mean. */
export function PictureKey() {
  return (
    <p className={styles.legend}>
      <span>
        <svg width="16" height="18" viewBox="-8 -9 16 18" aria-hidden="true">
          <path className={styles.glyph} d="M-7-8L7-3V3L-7 8z" />
        </svg>
        pressure reduction
      </span>
      <span>
        <svg width="8" height="22" viewBox="-4 -11 8 22" aria-hidden="true">
          <rect className={styles.glyph} x="-3" y="-11" width="6" height="22" rx="1" />
        </svg>
        wall outlet
      </span>
      <span>
        <svg width="28" height="4" viewBox="0 0 28 4" aria-hidden="true">
          <path className={styles.link} d="M0 2H28" />
        </svg>
        linked, no gas
      </span>
      <span>Every place opens its records.</span>
    </p>
  );
}
