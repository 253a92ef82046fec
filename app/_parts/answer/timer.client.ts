"use client";

import { useCallback, useEffect, useRef, useState } from "react";

export interface Stopwatch {
  readonly running: boolean;
  /** Seconds since the start, to a tenth, as shown. */
  readonly seconds: number;
  readonly start: () => void;
  /** Stops and says how long it ran, to a tenth of a second. */
  readonly stop: () => number;
  readonly reset: () => void;
}

const tenths = (milliseconds: number): number => Math.floor(milliseconds / 100) / 10;

/**
 * Counts by performance.now: a change of the device's clock, or a browser that slows the ticks of a page, changes what is drawn in
 * between but never the result. Seconds are cut, not rounded: 9.96 s is not yet 10 s.
 */
export function useStopwatch(): Stopwatch {
  const startedAt = useRef<number | null>(null);
  const [running, setRunning] = useState(false);
  const [seconds, setSeconds] = useState(0);
  useEffect(() => {
    if (!running) return;
    const tick = setInterval(() => {
      if (startedAt.current !== null) setSeconds(tenths(performance.now() - startedAt.current));
    }, 100);
    return () => clearInterval(tick);
  }, [running]);
  useScreenOn(running);
  const start = useCallback(() => {
    startedAt.current = performance.now();
    setSeconds(0);
    setRunning(true);
  }, []);
  const stop = useCallback(() => {
    const ran = startedAt.current === null ? 0 : tenths(performance.now() - startedAt.current);
    setSeconds(ran);
    setRunning(false);
    return ran;
  }, []);
  const reset = useCallback(() => {
    startedAt.current = null;
    setSeconds(0);
    setRunning(false);
  }, []);
  return { running, seconds, start, stop, reset };
}

/** Keeps the screen lit while a test runs. Browsers grant it over https only; without it the count goes on all the same. */
function useScreenOn(on: boolean) {
  useEffect(() => {
    if (!on || !("wakeLock" in navigator)) return;
    const lock = navigator.wakeLock.request("screen").catch(() => null);
    return () => {
      lock.then((held) => held?.release());
    };
  }, [on]);
}
