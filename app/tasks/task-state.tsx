import { clockText, minutesText, whenText } from "@/app/_parts/format";
import type { TaskView } from "@/lib/schemas/task";
import type { OpenCheckView } from "@/lib/schemas/work";
import { instantOf, MINUTE } from "@/lib/units/time";
import styles from "./task-state.module.css";

export interface TaskStateProps {
  readonly task: TaskView;
  readonly yours: boolean;
  readonly openCheck: OpenCheckView | null;
  readonly now: string;
  readonly zone: string;
}

const STATE_WORDS = { claimed: "has it", started: "is at it", paused: "paused" } as const;
const YOUR_WORDS = { claimed: "You have it", started: "You began", paused: "You paused" } as const;

/** Who has the task, how far they are, and why they paused. */
export function TaskState({ task: { claim, work }, yours, openCheck, now, zone }: TaskStateProps) {
  const state = work?.state ?? "claimed";
  const since = work?.since ?? claim?.since;
  return (
    <>
      {claim && since ? (
        <p className={styles.claim}>
          {yours
            ? `${YOUR_WORDS[state]}, since ${whenText(since, now, zone)}`
            : `${claim.name}, since ${whenText(since, now, zone)}${state === "claimed" ? "" : `, ${STATE_WORDS[state]}`}`}
          {state === "paused" && work?.reason ? `: ${work.reason}` : ""}
        </p>
      ) : null}
      {openCheck ? <CheckProgress check={openCheck} now={now} zone={zone} named={claim === null} /> : null}
    </>
  );
}

/** How far an open check is; while the self-test runs, somebody's hands are free for the next room. */
export function CheckProgress({
  check,
  now,
  zone,
  named,
}: {
  check: OpenCheckView;
  now: string;
  zone: string;
  named: boolean;
}) {
  return (
    <div className={styles.progress}>
      <p>
        {named ? `${check.heldBy}: ` : ""}
        {check.answered} of {check.asked} answered
        {check.takenOverFrom ? `, taken over from ${check.takenOverFrom}` : ""}
      </p>
      <svg className={styles.meter} viewBox="0 0 100 4" preserveAspectRatio="none" aria-hidden="true" focusable="false">
        <rect className={styles.meterAll} width="100" height="4" />
        <rect className={styles.meterDone} width={shareOf(check)} height="4" />
      </svg>
      {check.selfTestSince ? (
        <p className={styles.selfTest}>
          Self-test running since {clockText(check.selfTestSince, zone)},{" "}
          {minutesText((instantOf(now) - instantOf(check.selfTestSince)) / MINUTE)}
        </p>
      ) : null}
    </div>
  );
}

const shareOf = ({ answered, asked }: OpenCheckView): number =>
  asked === 0 ? 0 : Math.min(100, Math.round((100 * answered) / asked));
