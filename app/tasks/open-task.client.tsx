"use client";

import { useRouter } from "next/navigation";
import { useState } from "react";
import { ConfirmWorkstation } from "@/app/_parts/confirm-workstation.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useMayDo, useSession } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { LinkButton } from "@/app/_ui/link-button";
import { VisuallyHidden } from "@/app/_ui/visually-hidden";
import type { TaskView } from "@/lib/schemas/task";

const WORDS: Record<TaskView["kind"], string> = {
  check: "Start check",
  recheck: "Recheck",
  "swap-cylinder": "Swap",
  clear: "Open",
  confirm: "See and confirm",
  allow: "Open",
  event: "Open",
};

interface OpenTaskProps {
  readonly task: TaskView;
  readonly look: "primary" | "plain";
  /** A check that somebody else has open there. */
  readonly othersCheckId?: string | null;
}

/** The way into a task. A check is opened at once; everything else has its own page. */
export function OpenTask({ task, look, othersCheckId = null }: OpenTaskProps) {
  const place = task.room?.name ?? task.workstation?.tag ?? "";
  if (othersCheckId !== null) {
    return (
      <LinkButton href={`/checks/${othersCheckId}`} size="large">
        See the check <VisuallyHidden>of {place}</VisuallyHidden>
      </LinkButton>
    );
  }
  if (task.kind === "check") return <StartCheck task={task} look={look} />;
  if (task.kind === "event") return <OpenEvent task={task} look={look} />;
  const href =
    task.kind === "confirm" && task.openCheckId
      ? `/checks/${task.openCheckId}`
      : `/tasks/${encodeURIComponent(task.key)}`;
  return (
    <LinkButton href={href} look={look} size="large">
      {WORDS[task.kind]} <VisuallyHidden>{place}</VisuallyHidden>
    </LinkButton>
  );
}

/** The number on the workstation is asked first; then the task is claimed and the check opened. A task that somebody has taken says so. */
export function StartCheck({ task, look }: { task: TaskView; look: "primary" | "plain" }) {
  const me = useSession()?.person.id;
  const mayStart = useMayDo("start-check");
  const [asking, setAsking] = useState(false);
  const { begin, busy, problem } = useBegin(task);
  const { workstation, openCheckId } = task;
  const place = task.room?.name ?? "store";
  const named = <VisuallyHidden>{task.room?.name ?? workstation?.tag ?? ""}</VisuallyHidden>;
  if (openCheckId && task.claim?.personId === me) {
    return (
      <LinkButton href={`/checks/${openCheckId}`} look={look} size="large">
        Go on {named}
      </LinkButton>
    );
  }
  const confirmed = async (workstationId: string) => {
    await begin(workstationId);
    setAsking(false);
  };
  return (
    <>
      <Button
        look={look}
        size="large"
        busy={busy && !asking}
        disabledReason={mayStart ? null : "Your roles do not include checking a workstation."}
        onClick={() => (openCheckId && workstation ? void begin(workstation.id) : setAsking(true))}
      >
        {openCheckId ? "Go on" : WORDS.check} {named}
      </Button>
      <ProblemNotice problem={problem} />
      {workstation ? (
        <ConfirmWorkstation
          open={asking}
          expected={workstation}
          place={place}
          busy={busy}
          onClose={() => setAsking(false)}
          onConfirmed={(workstationId) => void confirmed(workstationId)}
        />
      ) : null}
    </>
  );
}

/** Claims the task, if it is this workstation's, and opens the check. Another workstation's check is opened as it stands. */
function useBegin(task: TaskView) {
  const router = useRouter();
  const mayClaim = useMayDo("claim-task");
  const claim = useCommand("claim-task");
  const start = useCommand("start-check");
  const begin = async (workstationId: string) => {
    if (!task.claim && mayClaim && workstationId === task.workstation?.id) {
      const claimed = await claim.send({ key: task.key });
      if (!claimed?.ok) return;
    }
    const reply = await start.send({ workstationId, kind: "daily" });
    if (reply?.ok) router.push(`/checks/${reply.value.checkId}`);
  };
  return { begin, busy: claim.busy || start.busy, problem: claim.problem ?? start.problem };
}

/** An event has its own page, with the card and the rooms; its task's key names it. */
function OpenEvent({ task, look }: OpenTaskProps) {
  return (
    <LinkButton href={`/events/${task.key.slice("event:".length)}`} look={look} size="large">
      Open <VisuallyHidden>{task.title}</VisuallyHidden>
    </LinkButton>
  );
}
