"use client";

import { useEffect, useState } from "react";
import { instant, instantOf, type Timestamp, timestampOf } from "@/lib/units/time";

/**
 * The server's time, carried on by this device's steady clock: a phone set to the wrong hour, or a demo's shifted clock,
 * shows the same time as everybody else. `at` is the server's time when the page was read.
 */
export function useServerTime(at: Timestamp, everyMs = 5_000): Timestamp {
  const [now, setNow] = useState(at);
  useEffect(() => {
    const start = performance.now();
    const from = instantOf(at);
    setNow(at);
    const timer = setInterval(() => setNow(timestampOf(instant(from + performance.now() - start))), everyMs);
    return () => clearInterval(timer);
  }, [at, everyMs]);
  return now;
}
