"use client";

import { LinkButton } from "@/app/_ui/link-button";
import { VisuallyHidden } from "@/app/_ui/visually-hidden";
import type { TaskView } from "@/lib/schemas/task";
import type { OpenCheckView } from "@/lib/schemas/work";
import { TaskMoves } from "./task-moves.client";
import { CheckProgress } from "./task-state";
import styles from "./tasks.module.css";

interface OpenChecksProps {
  readonly checks: readonly OpenCheckView[];
  readonly tasks: readonly TaskView[];
  readonly now: string;
  readonly zone: string;
}

/** What this person has open, in sight from everywhere in the list: several self-tests run at once, and each is one tap away. */
export function OpenChecks({ checks, tasks, now, zone }: OpenChecksProps) {
  if (checks.length === 0) return null;
  return (
    <section aria-labelledby="open-checks" className={styles.group}>
      <h2 id="open-checks">Open with you</h2>
      <ul className={styles.openChecks}>
        {checks.map((check) => {
          const task = tasks.find(({ openCheckId }) => openCheckId === check.checkId);
          return (
            <li key={check.checkId} className={styles.openCheck}>
              <div className={styles.words}>
                <h3 className={styles.title}>
                  <span className={styles.room}>{check.room?.name ?? check.workstation.tag}</span>{" "}
                  {check.room ? check.workstation.tag : "spare"}
                </h3>
                <CheckProgress check={check} now={now} zone={zone} named={false} />
              </div>
              <div className={styles.workActions}>
                {task ? <TaskMoves task={task} /> : null}
                <LinkButton href={`/checks/${check.checkId}`} look="primary" size="large">
                  Go on <VisuallyHidden>with {check.room?.name ?? check.workstation.tag}</VisuallyHidden>
                </LinkButton>
              </div>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
