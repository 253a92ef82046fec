"use client";

import { useState } from "react";
import { useOnChange } from "@/app/_live/use-live.client";
import { useSession } from "@/app/_parts/session.client";
import { Notice } from "@/app/_ui/notice";
import type { TaskView } from "@/lib/schemas/task";

/** Told while somebody is at it: the reason behind the task may go while they work. What they typed stays, and can still be signed. */
export function StillOpen({ task }: { task: TaskView }) {
  const person = useSession()?.person.id;
  const [gone, setGone] = useState(false);
  const concerned = [task.room?.id, task.workstation?.id].filter((id) => id !== undefined);
  useOnChange(concerned, () => void isGone(task.key).then((now) => now !== null && setGone(now)));
  if (!gone) return null;
  const mine = task.claim?.personId === person;
  return (
    <Notice tone="heed" title="This is no longer needed" announce="status">
      <p>
        What it was about has been cleared meanwhile.
        {mine ? " What you have seen can still be signed below; it is recorded." : " There is nothing more to do here."}
      </p>
    </Notice>
  );
}

/** Null when nobody can say just now. */
async function isGone(key: string): Promise<boolean | null> {
  try {
    const { ok, status } = await fetch(`/api/v1/tasks/${encodeURIComponent(key)}`, { cache: "no-store" });
    if (ok) return false;
    return status === 404 ? true : null;
  } catch {
    return null;
  }
}
