"use client";

import type { MouseEvent } from "react";
import styles from "./chip-links.module.css";
import { classNames } from "./class-names";

export interface Chip {
  readonly href: string;
  readonly label: string;
  readonly count?: number | null;
  readonly here: boolean;
}

/** Choices that stand in the address, as links that turn in place: what they choose from is on the page already. */
export function ChipLinks({ name, chips }: { name: string; chips: readonly Chip[] }) {
  return (
    <nav aria-label={name} className={styles.chips}>
      {chips.map(({ href, label, count, here }) => (
        <a
          key={`${label} ${href}`}
          href={href}
          className={classNames(styles.chip, count === 0 && !here && styles.none)}
          aria-current={here ? "true" : undefined}
          onClick={(event) => turnInPlace(event, href)}
        >
          {label}
          {count === undefined || count === null ? null : <span className={styles.count}> {count}</span>}
        </a>
      ))}
    </nav>
  );
}

/** A click with a key held, or with another button, is the browser's own: it opens another tab. */
export function turnInPlace(event: MouseEvent, href: string): void {
  if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey || event.button !== 0) return;
  event.preventDefault();
  window.history.pushState(null, "", href);
}
