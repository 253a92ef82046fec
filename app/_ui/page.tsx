import type { ReactNode } from "react";
import { classNames } from "./class-names";
import styles from "./page.module.css";

/** The width and rhythm of a page; `narrow` is for reading and forms. */
export function Page({ narrow = false, children }: { narrow?: boolean; children: ReactNode }) {
  return <div className={classNames(styles.page, narrow && styles.narrow)}>{children}</div>;
}

export interface PageHeadingProps {
  title: ReactNode;
  sub?: ReactNode;
  actions?: ReactNode;
}

export function PageHeading({ title, sub, actions }: PageHeadingProps) {
  return (
    <div className={styles.heading}>
      <div className={styles.titles}>
        <h1>{title}</h1>
        {sub ? <p className={styles.sub}>{sub}</p> : null}
      </div>
      {actions ? <div className={styles.actions}>{actions}</div> : null}
    </div>
  );
}
