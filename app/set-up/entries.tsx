import { Children, type ReactNode } from "react";
import styles from "./set-up.module.css";

/** A list that reads the same on a phone and on a desk: the name, what is known of it, what can be done. */
export function Entries({ name, children }: { name: string; children: ReactNode }) {
  return (
    <ul className={styles.entries} aria-label={name}>
      {children}
    </ul>
  );
}

export interface EntryProps {
  name: ReactNode;
  /** A soft word beside the name, such as "retired". */
  note?: string | null;
  /** Short facts; empty ones are left out. */
  facts: readonly (string | null | false)[];
  /** Buttons. */
  children?: ReactNode;
}

export function Entry({ name, note, facts, children }: EntryProps) {
  return (
    <li className={styles.entry}>
      <span className={styles.entryName}>
        <strong>{name}</strong>
        {note ? <span className={styles.soft}> · {note}</span> : null}
      </span>
      <span className={styles.entryFacts}>{facts.filter(Boolean).join(" · ")}</span>
      {Children.count(children) > 0 ? <span className={styles.entryDo}>{children}</span> : null}
    </li>
  );
}
