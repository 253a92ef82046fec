"use client";

import { useState } from "react";
import { clockText, minutesText } from "@/app/_parts/format";
import { useSession } from "@/app/_parts/session.client";
import { LinkButton } from "@/app/_ui/link-button";
import { Page, PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import { StartCheck } from "@/app/tasks/open-task.client";
import type { TaskDetail } from "@/lib/schemas/task";
import { AllowTask } from "./allow-task.client";
import { FinishForm } from "./finish-form.client";
import { StillOpen } from "./still-open.client";
import { SwapTask } from "./swap-task.client";
import styles from "./task-page.module.css";
import { FaultTask, FitTask, HoldTask } from "./task-way.client";
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
          {task.why === task.title ? null : <p>{task.why}</p>}
          <WorkBar task={task} now={detail.at} />
          <StillOpen task={task} />
        </>
      )}
      <TaskWork detail={detail} onFinished={() => setFinished(true)} />
    </Page>
  );
}

function TaskWork({ detail, onFinished }: { detail: TaskDetail; onFinished: () => void }) {
  const { task, items, swap, way } = detail;
  const workstationId = task.workstation?.id;
  if (task.kind === "check") {
    return (
      <div className={styles.steps}>
        <StartCheck task={task} look="primary" />
      </div>
    );
  }
  if (task.kind === "allow" && workstationId)
    return <AllowTask task={task} workstationId={workstationId} onFinished={onFinished} />;
  if (swap) return <SwapTask detail={detail} swap={swap} onFinished={onFinished} />;
  if (way.kind === "look-at-fault" && workstationId)
    return <FaultTask detail={detail} way={way} workstationId={workstationId} onFinished={onFinished} />;
  if (way.kind === "lift-hold" && workstationId)
    return <HoldTask detail={detail} way={way} workstationId={workstationId} onFinished={onFinished} />;
  if (way.kind === "fit-part") return <FitTask detail={detail} way={way} onFinished={onFinished} />;
  if (way.kind === "answers" && items.length > 0)
    return <FinishForm taskKey={task.key} items={items} place={task} onFinished={onFinished} />;
  return <ElsewhereNote detail={detail} />;
}

/** What no form here can clear: what does is said, and the room's own page is the way to it. */
function ElsewhereNote({ detail: { task, way } }: { detail: TaskDetail }) {
  const href =
    task.kind === "confirm" && task.openCheckId
      ? `/checks/${task.openCheckId}`
      : task.room
        ? `/rooms/${task.room.id}`
        : "/tasks";
  return (
    <div className={styles.steps}>
      {way.kind === "elsewhere" && way.texts.length > 0 ? (
        <Panel title="What clears it">
          <ul>
            {way.texts.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </Panel>
      ) : null}
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
