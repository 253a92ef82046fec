import { type ReactNode, useId } from "react";
import styles from "./panel.module.css";

export interface PanelProps {
  title: ReactNode;
  /** A few soft words beside the title. */
  aside?: ReactNode;
  children: ReactNode;
}

/** A surface that carries one piece of work, named by its heading. */
export function Panel({ title, aside, children }: PanelProps) {
  const id = useId();
  return (
    <section className={styles.panel} aria-labelledby={id}>
      <div className={styles.head}>
        <h2 id={id}>{title}</h2>
        {aside ? <span className={styles.aside}>{aside}</span> : null}
      </div>
      {children}
    </section>
  );
}
