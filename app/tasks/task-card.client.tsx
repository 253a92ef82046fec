"use client";

import { clockText, minutesText, whenText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useMayDo, useSession } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { rolesInWords } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { classNames } from "@/app/_ui/class-names";
import type { TaskView } from "@/lib/schemas/task";
import { OpenTask } from "./open-task.client";
import { SeverityMark } from "./severity-mark";
import type { Group } from "./task-groups";
import styles from "./tasks.module.css";

export interface TaskCardProps {
  readonly task: TaskView;
  readonly group: Group["name"];
  readonly now: string;
  readonly onChanged: () => void;
}

/** One task: where, what, why it stands here, and the tap that begins it. */
export function TaskCard({ task, group, now, onChanged }: TaskCardProps) {
  const zone = useSession()?.facility.timeZone ?? "UTC";
  return (
    <article className={classNames(styles.card, styles[task.severity])}>
      <SeverityMark severity={task.severity} />
      <div className={styles.words}>
        <h3 className={styles.title}>
          <span className={styles.room}>{task.room?.name ?? task.workstation?.tag}</span> {task.title}
        </h3>
        {task.why === task.title ? null : <p>{task.why}</p>}
        <p className={styles.placed}>
          {[task.placed, task.room ? task.workstation?.tag : "spare, in no room"].filter(Boolean).join(" · ")}
        </p>
        {task.claim ? (
          <p className={styles.claim}>
            {group === "yours" ? "You" : task.claim.name}, since {whenText(task.claim.since, now, zone)}
          </p>
        ) : null}
        {group === "other" ? <p className={styles.placed}>For {rolesInWords(task.mayDo)}</p> : null}
      </div>
      <p className={styles.minutes}>
        {minutesText(task.minutes)}
        {task.firstCase ? <span className={styles.placed}>first case {clockText(task.firstCase, zone)}</span> : null}
      </p>
      {group === "other" ? null : <Actions task={task} group={group} onChanged={onChanged} />}
    </article>
  );
}

function Actions({ task, group, onChanged }: { task: TaskView; group: Group["name"]; onChanged: () => void }) {
  const mayClaim = useMayDo("claim-task");
  const claim = useCommand("claim-task");
  const giveBack = useCommand("give-back-task");
  const run = async (command: typeof claim | typeof giveBack) => {
    await command.send({ key: task.key });
    // A refused claim means that the list is old: it shows who has the task now.
    onChanged();
  };
  return (
    <div className={styles.work}>
      <div className={styles.actions}>
        <OpenTask task={task} look={group === "taken" ? "plain" : "primary"} />
        {group === "open" && mayClaim ? (
          <Button
            size="large"
            busy={claim.busy}
            onClick={() => run(claim)}
            aria-label={`Claim: ${task.room?.name ?? ""} ${task.title}`}
          >
            Claim
          </Button>
        ) : null}
        {group === "yours" ? (
          <Button
            size="large"
            busy={giveBack.busy}
            onClick={() => run(giveBack)}
            aria-label={`Give back: ${task.room?.name ?? ""} ${task.title}`}
          >
            Give back
          </Button>
        ) : null}
      </div>
      <ProblemNotice problem={claim.problem ?? giveBack.problem} />
    </div>
  );
}
