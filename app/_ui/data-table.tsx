import type { ReactNode } from "react";
import styles from "./data-table.module.css";

/** A frame that scrolls must be reachable by keyboard (WCAG 2.1.1), although it is no control. */
const REACHABLE = { tabIndex: 0 } as const;

/** A table that scrolls inside itself on a narrow screen. */
export function DataTable({ name, caption, children }: { name: string; caption?: ReactNode; children: ReactNode }) {
  return (
    <section className={styles.scroll} aria-label={name} {...REACHABLE}>
      <table className={styles.table}>
        {caption ? <caption>{caption}</caption> : null}
        {children}
      </table>
    </section>
  );
}
