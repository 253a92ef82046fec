"use client";

import { useEffect, useState } from "react";
import { countText } from "@/app/_parts/format";
import { useSession } from "@/app/_parts/session.client";
import { instant, timeIn } from "@/lib/units/time";
import type { Entry } from "./device-store.client";
import { useKeeps, useOutbox, useTrouble } from "./use-outbox.client";
import styles from "./waiting-line.module.css";

/** What is on its way at this moment is not worth a line; what has not arrived by then is. */
const ON_ITS_WAY_MS = 3_000;

/** What has not been sent, on every page, as long as it has not been. */
export function WaitingLine() {
  const entries = useOutbox();
  const keeps = useKeeps();
  const trouble = useTrouble();
  const session = useSession();
  const zone = session?.facility.timeZone ?? "UTC";
  const first = entries[0];
  const late = useLate(first?.id ?? null);
  const stands = entries.some(({ kept, refusal }) => refusal !== null || kept.personId !== session?.person.id);
  if (!first || !(late || trouble !== null || stands)) return null;
  const refused = entries.filter(({ refusal }) => refusal !== null).length;
  const count = entries.reduce((sum, { answers }) => sum + answers.length, 0);
  return (
    <p className={styles.line} role="status">
      <a href="/waiting">
        {countText(count, "answer")} {count === 1 ? "waits" : "wait"} on this device since {sinceText(first, zone)}
      </a>
      {refused > 0 ? <strong>{refused} refused</strong> : null}
      {keeps ? null : <strong>This browser keeps nothing: leave the page open</strong>}
    </p>
  );
}

function useLate(id: string | null): boolean {
  const [late, setLate] = useState<string | null>(null);
  useEffect(() => {
    if (id === null) return;
    const timer = setTimeout(() => setLate(id), ON_ITS_WAY_MS);
    return () => clearTimeout(timer);
  }, [id]);
  return id !== null && late === id;
}

/** The time at the hospital, corrected by the offset that was seen. */
export function sinceText({ answers, kept }: Entry, zone: string): string {
  const given = Date.parse(answers[0]?.givenAt ?? kept.clock.contactAt);
  return timeIn(zone, instant(given + kept.clock.offsetSeconds * 1000));
}
