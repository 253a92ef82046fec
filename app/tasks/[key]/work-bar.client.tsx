"use client";

import { useRouter } from "next/navigation";
import { whenText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useMayDo, useSession } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { rolesInWords } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { standingOf } from "@/app/tasks/task-groups";
import { TaskMoves, TaskMovesHost } from "@/app/tasks/task-moves.client";
import { TaskState } from "@/app/tasks/task-state";
import styles from "@/app/tasks/tasks.module.css";
import type { TaskView } from "@/lib/schemas/task";
import own from "./task-page.module.css";

/** Who has the task and how far they are, with the tap that says "I am at it"; the other moves stand behind "More". */
export function WorkBar({ task, now }: { task: TaskView; now: string }) {
  const router = useRouter();
  const session = useSession();
  const mayStart = useMayDo("start-task");
  const { send, busy, problem } = useCommand("start-task");
  const zone = session?.facility.timeZone ?? "UTC";
  const standing = standingOf(task, { personId: session?.person.id ?? "", roles: session?.roles ?? [] });
  const changed = () => router.refresh();
  const begin = async () => {
    await send({ key: task.key });
    changed();
  };
  const begins = mayStart && (standing === "open" || (standing === "yours" && task.work?.state !== "started"));
  return (
    <section className={own.workBar} aria-label="Who is on it">
      <div className={styles.words}>
        <TaskState task={task} yours={standing === "yours"} openCheck={null} now={now} zone={zone} />
        {task.claim ? null : <p className={own.soft}>Nobody has it yet.</p>}
        {task.couldNot.map(({ name, reason, at }) => (
          <p key={`${name} ${at}`} className={styles.heed}>
            {name} could not, {whenText(at, now, zone)}: {reason}
          </p>
        ))}
        {standing === "other" ? <p className={own.soft}>It is for {rolesInWords(task.mayDo)}.</p> : null}
      </div>
      <div className={styles.workActions}>
        {begins && task.kind !== "check" ? (
          <Button size="large" busy={busy} onClick={begin}>
            {task.work?.state === "paused" ? "Go on" : "Begin"}
          </Button>
        ) : null}
        {standing === "other" ? null : (
          <TaskMovesHost onChanged={changed}>
            <TaskMoves task={task} />
          </TaskMovesHost>
        )}
      </div>
      <ProblemNotice problem={problem} />
    </section>
  );
}
