"use client";

import { useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { viewOrThrow } from "@/app/_parts/api.client";
import { SignedResult } from "@/app/_parts/signed-result.client";
import { Notice } from "@/app/_ui/notice";
import styles from "@/app/tasks/tasks.module.css";
import type { TaskDetail } from "@/lib/schemas/task";
import { FinishForm } from "./finish-form.client";
import { SwapForm } from "./swap-form.client";

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
  const { room, workstation } = detail.task;
  if (!workstation) return <Notice tone="heed" title="No workstation stands behind this task any more." />;
  if (!swapped) {
    return (
      <SwapForm workstationId={workstation.id} swap={swap} onSwapped={(serial, owes) => setSwapped({ serial, owes })} />
    );
  }
  return (
    <div className={styles.steps}>
      <Notice tone="done" title={`Cylinder ${swapped.serial} is on yoke ${swap.position}`} announce="status">
        {swapped.owes ? <p>It owes the checks below before it counts.</p> : null}
      </Notice>
      {swapped.owes ? (
        <OwedChecks taskKey={swapped.owes} room={room} onFinished={onFinished} />
      ) : (
        <SignedResult words="Swapped" room={room} />
      )}
    </div>
  );
}

function OwedChecks({
  taskKey,
  room,
  onFinished,
}: {
  taskKey: string;
  room: TaskDetail["task"]["room"];
  onFinished: () => void;
}) {
  const { data, error } = useQuery({
    queryKey: ["task", taskKey],
    queryFn: () => viewOrThrow<TaskDetail>(`/api/v1/tasks/${encodeURIComponent(taskKey)}`),
    staleTime: Number.POSITIVE_INFINITY,
  });
  if (error) {
    return (
      <Notice tone="heed" title="The swap is recorded; what it owes could not be read just now." announce="alert">
        <p>{error.message} It stands in To do as a recheck.</p>
      </Notice>
    );
  }
  if (!data) return <p role="status">Reading what the swap owes…</p>;
  return <FinishForm taskKey={taskKey} items={data.items} room={room} onFinished={onFinished} />;
}
