import type { ReactNode } from "react";
import { VisuallyHidden } from "@/app/_ui/visually-hidden";
import type { ItemStanding } from "./check-state";
import styles from "./item-mark.module.css";

type State = ItemStanding["state"];

const LOOK: Record<State, { readonly word: string; readonly shape: ReactNode }> = {
  open: {
    word: "not answered",
    shape: <circle cx="10" cy="10" r="7.5" className={styles.ring} strokeDasharray="3 2.9" />,
  },
  typed: {
    word: "begun",
    shape: (
      <>
        <circle cx="10" cy="10" r="7.5" className={styles.ring} strokeDasharray="3 2.9" />
        <circle cx="10" cy="10" r="3" className={styles.full} />
      </>
    ),
  },
  waiting: {
    word: "answered, on its way",
    shape: (
      <>
        <circle cx="10" cy="10" r="7.5" className={styles.ring} />
        <path d="M10 14V6.500M6.5 9.5L10 6l3.5 3.5" className={styles.ring} />
      </>
    ),
  },
  passing: {
    word: "passes",
    shape: (
      <>
        <circle cx="10" cy="10" r="8.5" className={styles.full} />
        <path d="M6 10.500l2.800 2.800L14.2 7.500" className={styles.cut} />
      </>
    ),
  },
  failing: {
    word: "fails",
    shape: (
      <>
        <path d="M6.500 1.500h7l5 5v7l-5 5h-7l-5-5v-7z" className={styles.full} />
        <path d="M5.500 10h9" className={styles.cut} />
      </>
    ),
  },
  noted: {
    word: "noted",
    shape: (
      <>
        <circle cx="10" cy="10" r="7.5" className={styles.ring} />
        <circle cx="10" cy="10" r="3.5" className={styles.full} />
      </>
    ),
  },
};

/** How an item of a check stands: a shape of its own for each state, with its word for a screen reader. */
export function ItemMark({ state }: { state: State }) {
  const { word, shape } = LOOK[state];
  return (
    <span className={`${styles.mark} ${styles[state]}`}>
      <svg width="20" height="20" viewBox="0 0 20 20" aria-hidden="true">
        {shape}
      </svg>
      <VisuallyHidden>{word}</VisuallyHidden>
    </span>
  );
}
