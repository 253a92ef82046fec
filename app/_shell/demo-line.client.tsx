"use client";

import { clockText, longDayText } from "@/app/_parts/format";
import { useServerTime } from "@/app/_parts/server-clock.client";
import { dateIn, instantOf, type Timestamp } from "@/lib/units/time";
import styles from "./shell.module.css";

/** The demo runs on a shifted clock, and never hides it. */
export function DemoLine({ at, zone }: { at: Timestamp; zone: string }) {
  const now = useServerTime(at);
  const [weekday = ""] = longDayText(dateIn(zone, instantOf(now))).split(" ");
  return (
    <p className={styles.demo} data-demo-banner="">
      Demo: a working morning, {weekday} {clockText(now, zone)}. Hospital, people and equipment are invented.
    </p>
  );
}
