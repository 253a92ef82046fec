"use client";

import { useRouter } from "next/navigation";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useMayDo } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";

/** All of the walk taken by one tap, and the same on paper. */
export function ClaimWalk({ keys }: { keys: readonly string[] }) {
  const router = useRouter();
  const mayClaim = useMayDo("claim-tasks");
  const { send, busy, problem } = useCommand("claim-tasks");
  const claim = async () => {
    const reply = await send({ keys: [...keys] });
    if (reply?.ok) router.push("/tasks?whose=mine&order=walk");
  };
  return (
    <>
      {mayClaim && keys.length > 0 ? (
        <Button look="primary" size="large" busy={busy} onClick={claim}>
          Claim all
        </Button>
      ) : null}
      <Button size="large" onClick={() => window.print()}>
        Print
      </Button>
      <ProblemNotice problem={problem} />
    </>
  );
}
