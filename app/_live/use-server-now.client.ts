"use client";

import { useEffect, useState } from "react";
import { useLiveContext } from "./live-provider.client";

const TICK_MS = 5_000;

/**
 * The server's time in milliseconds: every five seconds, and at each of the given moments exactly.
 * `readAt` is the server's time on the page, so that server and browser render the same first picture.
 */
export function useServerNow(readAt: number, moments: readonly number[]): number {
  const { store } = useLiveContext();
  const [now, setNow] = useState(readAt);
  useEffect(() => store.readAt(readAt), [store, readAt]);

  const next = Math.min(...moments.filter((moment) => moment > now));
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout>;
    const tick = () => {
      const read = store.clock.now() ?? readAt;
      setNow(read);
      schedule(read);
    };
    const schedule = (from: number) => {
      timer = setTimeout(tick, Math.min(TICK_MS, Math.max(1, Math.ceil(next - from))));
    };
    schedule(store.clock.now() ?? readAt);
    return () => clearTimeout(timer);
  }, [store, readAt, next]);
  return now;
}
