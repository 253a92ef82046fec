"use client";

import type { Turning } from "./use-turning.client";
import styles from "./wall.module.css";

/** Which page of rooms this is, and how to hold it. */
export function WallTurning({ turning, pages }: { turning: Turning; pages: number }) {
  return (
    <nav className={styles.turning} aria-label="Pages of rooms">
      <p>
        Rooms, page {turning.page + 1} of {pages}
      </p>
      <button type="button" onClick={() => turning.turn(-1)}>
        Page before
      </button>
      <button type="button" onClick={() => turning.setPaused(!turning.paused)}>
        {turning.paused ? "Standing still: turn again" : "Hold this page"}
      </button>
      <button type="button" onClick={() => turning.turn(1)}>
        Next page
      </button>
    </nav>
  );
}
