import type { ReactNode } from "react";
import { classNames } from "./class-names";
import styles from "./notice.module.css";

export type NoticeTone = "plain" | "done" | "heed" | "wrong";

const SHAPES: Record<NoticeTone, ReactNode> = {
  plain: (
    <>
      <circle cx="10" cy="10" r="8.5" fill="none" stroke="currentColor" strokeWidth="2" />
      <path d="M10 9v6M10 5v2" stroke="currentColor" strokeWidth="2.2" />
    </>
  ),
  done: (
    <>
      <circle cx="10" cy="10" r="9" fill="currentColor" />
      <path d="M5.5 10.5l3 3 6-7" fill="none" stroke="var(--plate)" strokeWidth="2.2" />
    </>
  ),
  heed: (
    <>
      <path d="M10 1l9 9-9 9-9-9z" fill="currentColor" />
      <path d="M10 5.5v6M10 13v2" stroke="var(--plate)" strokeWidth="2.2" />
    </>
  ),
  wrong: (
    <>
      <path d="M6 1h8l5 5v8l-5 5H6l-5-5V6z" fill="currentColor" />
      <path d="M5.5 10h9" stroke="var(--plate)" strokeWidth="2.8" />
    </>
  ),
};

export interface NoticeProps {
  tone?: NoticeTone;
  title?: ReactNode;
  /** Said at once by a screen reader when it appears: "status" waits its turn, "alert" does not. */
  announce?: "status" | "alert";
  children?: ReactNode;
}

export function Notice({ tone = "plain", title, announce, children }: NoticeProps) {
  return (
    <div className={classNames(styles.notice, styles[tone])} role={announce}>
      <svg className={styles.mark} viewBox="0 0 20 20" aria-hidden="true">
        {SHAPES[tone]}
      </svg>
      <div className={styles.body}>
        {title ? <strong>{title}</strong> : null}
        {children}
      </div>
    </div>
  );
}
