"use client";

import { useRouter } from "next/navigation";
import { useState } from "react";
import { ConfirmWorkstation } from "@/app/_parts/confirm-workstation.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { Said } from "@/app/_parts/said.client";
import { useMayDo } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { LinkButton } from "@/app/_ui/link-button";
import type { RoomView } from "@/lib/schemas/room";

/** Starts the daily check, or goes on with the one that is open: one workstation has one open daily check, whoever began it. */
export function CheckButton({ view, onChanged }: { view: RoomView; onChanged: () => void }) {
  const router = useRouter();
  const [asking, setAsking] = useState(false);
  const may = useMayDo("start-check");
  const start = useCommand("start-check");
  const { row, checks } = view;
  const open = checks.find(({ kind, signedAt }) => kind === "daily" && signedAt === null);
  if (!may || !row.workstation) return null;
  if (open) {
    return (
      <LinkButton href={`/checks/${open.id}`} look="primary" size="large">
        <Said>Go on with the daily check</Said>
      </LinkButton>
    );
  }
  const begin = async (workstationId: string) => {
    const reply = await start.send({ workstationId, kind: "daily" });
    setAsking(false);
    if (reply?.ok) router.push(`/checks/${reply.value.checkId}`);
    else onChanged();
  };
  const isFirst = row.marks.equipment === null;
  const isNext = isFirst && row.occupancy.state !== "closed";
  return (
    <>
      <Button
        look={isNext ? "primary" : "plain"}
        size={isNext ? "large" : "normal"}
        busy={start.busy}
        onClick={() => setAsking(true)}
        disabledReason={row.occupancy.state === "in-use" ? "A case is running: check after it." : null}
      >
        <Said>{isFirst ? "Start daily check" : "Check again"}</Said>
      </Button>
      <ProblemNotice problem={start.problem} />
      <ConfirmWorkstation
        open={asking}
        expected={row.workstation}
        place={row.name}
        busy={start.busy}
        onClose={() => setAsking(false)}
        onConfirmed={(workstationId) => void begin(workstationId)}
      />
    </>
  );
}
