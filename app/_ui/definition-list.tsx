import { Fragment, type ReactNode } from "react";
import styles from "./definition-list.module.css";

export interface Definition {
  term: string;
  value: ReactNode;
}

/** Names and values in two columns; entries without a value are left out. */
export function DefinitionList({ entries }: { entries: readonly Definition[] }) {
  return (
    <dl className={styles.list}>
      {entries
        .filter(({ value }) => value !== null && value !== undefined && value !== "")
        .map(({ term, value }) => (
          <Fragment key={term}>
            <dt>{term}</dt>
            <dd>{value}</dd>
          </Fragment>
        ))}
    </dl>
  );
}
