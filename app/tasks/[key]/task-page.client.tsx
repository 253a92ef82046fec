"use client";

import { useState } from "react";
import { clockText, minutesText } from "@/app/_parts/format";
import { useSession } from "@/app/_parts/session.client";
import { LinkButton } from "@/app/_ui/link-button";
import { Page, PageHeading } from "@/app/_ui/page";
import { StartCheck } from "@/app/tasks/open-task.client";
import styles from "@/app/tasks/tasks.module.css";
import type { TaskDetail } from "@/lib/schemas/task";
import { AllowTask } from "./allow-task.client";
import { FinishForm } from "./finish-form.client";
import { SwapTask } from "./swap-task.client";
import { WorkBar } from "./work-bar.client";

/** What a task asks for, on one screen: for a check the way into it, for a swap the swap and then what it owes. */
export function TaskPageView({ detail }: { detail: TaskDetail }) {
  const { task } = detail;
  const [finished, setFinished] = useState(false);
  const zone = useSession()?.facility.timeZone ?? "UTC";
  const sub = [
    task.workstation?.tag,
    minutesText(task.minutes),
    task.firstCase ? `first case ${clockText(task.firstCase, zone)}` : null,
  ].filter(Boolean);
  return (
    <Page narrow>
      <PageHeading title={[task.room?.name, task.title].filter(Boolean).join(": ")} sub={sub.join(" · ")} />
      {finished ? null : (
        <>
          <p>{task.why}</p>
          <WorkBar task={task} now={detail.at} />
        </>
      )}
      <TaskWork detail={detail} onFinished={() => setFinished(true)} />
    </Page>
  );
}

function TaskWork({ detail, onFinished }: { detail: TaskDetail; onFinished: () => void }) {
  const { task, items, swap } = detail;
  if (task.kind === "check") {
    return (
      <div className={styles.steps}>
        <StartCheck task={task} look="primary" />
      </div>
    );
  }
  if (task.kind === "allow" && task.workstation)
    return <AllowTask task={task} workstationId={task.workstation.id} onFinished={onFinished} />;
  if (swap) return <SwapTask detail={detail} swap={swap} onFinished={onFinished} />;
  if (items.length > 0) return <FinishForm taskKey={task.key} items={items} room={task.room} onFinished={onFinished} />;
  return <ElsewhereNote detail={detail} />;
}

/** Tasks whose work is a decision and no evidence: they are done on the room's own page. */
function ElsewhereNote({ detail: { task } }: { detail: TaskDetail }) {
  const href =
    task.kind === "confirm" && task.openCheckId
      ? `/checks/${task.openCheckId}`
      : task.room
        ? `/rooms/${task.room.id}`
        : "/tasks";
  return (
    <div className={styles.steps}>
      <p className={styles.soft}>{task.placed}</p>
      <div>
        <LinkButton href={href} look="primary" size="large">
          {task.kind === "confirm" && task.openCheckId
            ? "See the check and confirm"
            : `To ${task.room?.name ?? "the list"}`}
        </LinkButton>
      </div>
    </div>
  );
}
