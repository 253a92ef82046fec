import Link from "next/link";
import { clockText } from "@/app/_parts/format";
import type { OpenCheckView } from "@/lib/schemas/work";
import styles from "./open-checks-strip.module.css";

interface StripProps {
  checks: readonly OpenCheckView[];
  /** Since when the self-test of this workstation runs, while its result is not recorded. */
  selfTestSince: string | null;
  zone: string;
}

/** The other checks this person has open, each a way there: a self-test that runs is not forgotten. */
export function OpenChecksStrip({ checks, selfTestSince, zone }: StripProps) {
  if (checks.length === 0 && selfTestSince === null) return null;
  return (
    <nav className={styles.strip} aria-label="My other open checks">
      <ul>
        {selfTestSince === null ? null : (
          <li className={styles.here}>Self-test here running since {clockText(selfTestSince, zone)}</li>
        )}
        {checks.map(({ checkId, room, workstation, answered, asked, selfTestSince }) => (
          <li key={checkId}>
            <Link href={`/checks/${checkId}`} prefetch={false} className={styles.check}>
              <strong>{room?.name ?? workstation.tag}</strong>{" "}
              <span>
                {answered} of {asked}
              </span>
              {selfTestSince ? (
                <span className={styles.test}>self-test running since {clockText(selfTestSince, zone)}</span>
              ) : null}
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  );
}
