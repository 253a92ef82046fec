import type { ReactNode } from "react";
import type { CompletionReport } from "@/lib/schemas/report";
import styles from "./reports.module.css";

export type Cell = CompletionReport["rooms"][number]["cells"][number];

/** A word and a shape for how the check of one room-day stands. */
export const CELL_LOOK: Record<Cell["state"], { readonly word: string; readonly shape: ReactNode }> = {
  done: {
    word: "done",
    shape: (
      <>
        <circle cx="9" cy="9" r="8" fill="currentColor" />
        <path d="M5.200 9.300l2.600 2.600 5-5.400" className={styles.cut} />
      </>
    ),
  },
  late: {
    word: "late",
    shape: (
      <>
        <circle cx="9" cy="9" r="7" className={styles.line} />
        <path d="M9 5v4.300l3 1.900" className={styles.line} />
      </>
    ),
  },
  missed: {
    word: "missed",
    shape: (
      <>
        <path d="M6 1.500h6L16.500 6v6L12 16.500H6L1.500 12V6z" fill="currentColor" />
        <path d="M5 9h8" className={styles.cut} />
      </>
    ),
  },
  closed: { word: "closed", shape: <path d="M4 9h10" className={styles.line} /> },
  "not-due": { word: "n/a", shape: <circle cx="9" cy="9" r="1.6" fill="currentColor" /> },
};

export function CellShape({ state }: { state: Cell["state"] }) {
  return (
    <svg width="18" height="18" viewBox="0 0 18 18" aria-hidden="true">
      {CELL_LOOK[state].shape}
    </svg>
  );
}
