"use client";

import { useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { ProblemError, viewOrThrow } from "@/app/_parts/api.client";
import { SignedResult } from "@/app/_parts/signed-result.client";
import { SwapCylinderForm } from "@/app/_parts/swap-cylinder/swap-cylinder-form.client";

import { LinkButton } from "@/app/_ui/link-button";
import { Notice } from "@/app/_ui/notice";
import type { TaskDetail } from "@/lib/schemas/task";
import { FinishForm } from "./finish-form.client";
import styles from "./task-page.module.css";

interface Swapped {
  readonly serial: string;
  readonly owes: string | null;
}

/** A swap in two steps on one screen: which cylinder goes on and what comes off, then the checks that the swap owes. */
export function SwapTask({
  detail,
  swap,
  onFinished,
}: {
  detail: TaskDetail;
  swap: NonNullable<TaskDetail["swap"]>;
  onFinished: () => void;
}) {
  const [swapped, setSwapped] = useState<Swapped | null>(null);
  const [finished, setFinished] = useState(false);
  const { room, workstation } = detail.task;
  const finish = () => {
    setFinished(true);
    onFinished();
  };
  if (!workstation) return <Notice tone="heed" title="No workstation stands behind this task any more." />;
  if (!swapped) {
    return (
      <SwapCylinderForm
        workstationId={workstation.id}
        swap={swap}
        onSwapped={(serial, owes) => setSwapped({ serial, owes })}
      />
    );
  }
  return (
    <div className={styles.steps}>
      {finished ? null : (
        <Notice tone="done" title={`Cylinder ${swapped.serial} is on yoke ${swap.position}`} announce="status">
          {swapped.owes ? <p>It owes the checks below before it counts.</p> : null}
        </Notice>
      )}
      {swapped.owes ? (
        <OwedChecks taskKey={swapped.owes} place={{ room, workstation }} onFinished={finish} />
      ) : (
        <SignedResult words="Swapped" room={room} />
      )}
    </div>
  );
}

function OwedChecks({
  taskKey,
  place,
  onFinished,
}: {
  taskKey: string;
  place: Pick<TaskDetail["task"], "room" | "workstation">;
  onFinished: () => void;
}) {
  const { data, error } = useQuery({
    queryKey: ["task", taskKey],
    queryFn: () => viewOrThrow<TaskDetail>(`/api/v1/tasks/${encodeURIComponent(taskKey)}`),
    staleTime: Number.POSITIVE_INFINITY,
  });
  if (error) return <OwedElsewhere error={error} />;
  if (!data) return <p role="status">Reading what the swap owes…</p>;
  return <FinishForm taskKey={taskKey} items={data.items} place={place} onFinished={onFinished} />;
}

/** Where the room's own check is still open, that check asks for the new cylinder as well: there is no recheck apart from it. */
function OwedElsewhere({ error }: { error: Error }) {
  const inTheCheck = error instanceof ProblemError && error.problem.status === 404;
  return (
    <div className={styles.steps}>
      <Notice
        tone="heed"
        title={inTheCheck ? "Its gauge is asked in the room’s check" : "What it owes could not be read just now"}
        announce="status"
      >
        <p>
          {inTheCheck
            ? "The check of this room is not complete yet; finish it there."
            : "The swap is recorded. It stands in To do as a recheck."}
        </p>
      </Notice>
      <div>
        <LinkButton href="/tasks" look="primary" size="large">
          To do
        </LinkButton>
      </div>
    </div>
  );
}
