"use client";

import { useEffect, useState } from "react";

/** Long enough to find a room and read it from three metres. */
const TURN_EVERY_MS = 20_000;

export interface Turning {
  readonly page: number;
  readonly paused: boolean;
  turn(by: 1 | -1): void;
  setPaused(paused: boolean): void;
}

/** Pages that turn by themselves, and stand still for as long as somebody wants. Turning by hand begins the wait anew. */
export function useTurning(pages: number): Turning {
  const [page, setPage] = useState(0);
  const [paused, setPaused] = useState(false);
  const shown = Math.min(page, Math.max(0, pages - 1));
  useEffect(() => {
    if (paused || pages < 2) return;
    const timer = setTimeout(() => setPage((shown + 1) % pages), TURN_EVERY_MS);
    return () => clearTimeout(timer);
  }, [paused, pages, shown]);
  return { page: shown, paused, setPaused, turn: (by) => setPage((shown + by + pages) % pages) };
}
