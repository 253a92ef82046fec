"use client";

import { useRouter } from "next/navigation";
import { type ReactNode, useState } from "react";
import { ConfirmWorkstation } from "@/app/_parts/confirm-workstation.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button, type ButtonLook } from "@/app/_ui/button.client";
import type { RoomView } from "@/lib/schemas/room";

interface BeginCheckProps {
  readonly kind: "daily" | "each-case" | "close-out";
  readonly row: RoomView["row"];
  readonly look?: ButtonLook;
  readonly size?: "normal" | "large";
  readonly disabledReason?: string | null;
  readonly onChanged: () => void;
  readonly children: ReactNode;
}

/** Asks for the number on the workstation, begins the check of that kind, and goes to it. */
export function BeginCheck({ kind, row, look, size, disabledReason, onChanged, children }: BeginCheckProps) {
  const router = useRouter();
  const [asking, setAsking] = useState(false);
  const start = useCommand("start-check");
  const begin = async (workstationId: string) => {
    const reply = await start.send({ workstationId, kind });
    setAsking(false);
    if (reply?.ok) router.push(`/checks/${reply.value.checkId}`);
    else onChanged();
  };
  if (!row.workstation) return null;
  return (
    <>
      <Button
        look={look ?? "plain"}
        size={size ?? "large"}
        busy={start.busy}
        onClick={() => setAsking(true)}
        disabledReason={disabledReason ?? null}
      >
        {children}
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
