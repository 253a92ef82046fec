import type { ReactNode } from "react";
import styles from "./visually-hidden.module.css";

/** Said by a screen reader, not drawn: for what the eye takes from position or shape. */
export function VisuallyHidden({ children }: { children: ReactNode }) {
  return <span className={styles.hidden}>{children}</span>;
}
