"use client";

import { useRouter } from "next/navigation";
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

/** One tap: the task is claimed and the check opened. A task that somebody has taken meanwhile says so and opens nothing. */
export function StartCheck({ task, look }: { task: TaskView; look: "primary" | "plain" }) {
  const router = useRouter();
  const me = useSession()?.person.id;
  const mayClaim = useMayDo("claim-task");
  const mayStart = useMayDo("start-check");
  const claim = useCommand("claim-task");
  const start = useCommand("start-check");
  const { workstation, openCheckId } = task;
  const go = async () => {
    if (!workstation) return;
    if (!task.claim && mayClaim) {
      const claimed = await claim.send({ key: task.key });
      if (!claimed?.ok) return;
    }
    const reply = await start.send({ workstationId: workstation.id, kind: "daily" });
    if (reply?.ok) router.push(`/checks/${reply.value.checkId}`);
  };
  const place = task.room?.name ?? workstation?.tag ?? "";
  if (openCheckId && task.claim?.personId === me) {
    return (
      <LinkButton href={`/checks/${openCheckId}`} look={look} size="large">
        Go on <VisuallyHidden>with {place}</VisuallyHidden>
      </LinkButton>
    );
  }
  return (
    <>
      <Button
        look={look}
        size="large"
        busy={claim.busy || start.busy}
        disabledReason={mayStart ? null : "Your roles do not include checking a workstation."}
        onClick={go}
      >
        {openCheckId ? "Go on" : WORDS.check} <VisuallyHidden>{place}</VisuallyHidden>
      </Button>
      <ProblemNotice problem={claim.problem ?? start.problem} />
    </>
  );
}
