"use client";

import type { ReactNode } from "react";
import styles from "./fields.module.css";

export interface OptionProps {
  readonly label: string;
  readonly chosen: boolean;
  readonly onChoose: () => void;
  readonly picture?: ReactNode;
  /** The key that chooses it on a keyboard, shown where there is one. */
  readonly shortcut?: string;
  /** Takes the focus when the item comes up. */
  readonly first?: boolean;
}

/** One large answer. A button and no radio: an arrow key must not give an answer in passing. */
export function Option({ label, chosen, onChoose, picture, shortcut, first }: OptionProps) {
  return (
    <button
      type="button"
      className={styles.option}
      aria-pressed={chosen}
      aria-keyshortcuts={shortcut}
      data-first={first ? "" : undefined}
      onClick={onChoose}
    >
      {picture ?? (
        <svg className={styles.tick} viewBox="0 0 22 22" aria-hidden="true">
          <circle cx="11" cy="11" r="9.5" />
          <path d="M6.5 11.5l3 3 6-7" />
        </svg>
      )}
      <span>{label}</span>
      {shortcut ? (
        <span className={styles.key} aria-hidden="true">
          {shortcut}
        </span>
      ) : null}
    </button>
  );
}
