"use client";

import { useState } from "react";
import { whenText } from "@/app/_parts/format";
import { ReasonForm } from "@/app/_parts/reason-form.client";
import { useMayDo } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import { Notice } from "@/app/_ui/notice";
import type { OpenCheckView } from "@/lib/schemas/work";
import styles from "./take-over.module.css";

interface TakeOverProps {
  check: OpenCheckView;
  now: string;
  zone: string;
  onTaken: () => void;
}

const OFTEN = ["Called away", "End of shift", "We share this room"] as const;

/** Somebody else's check: who is on it is said, and it changes hands with a word of why. Every answer keeps its own name. */
export function TakeOver({ check, now, zone, onTaken }: TakeOverProps) {
  const [open, setOpen] = useState(false);
  const may = useMayDo("take-over-check");
  const take = useCommand("take-over-check");
  const submit = async (reason: string) => {
    const reply = await take.send({ checkId: check.checkId, reason });
    if (!reply?.ok) return;
    setOpen(false);
    onTaken();
  };
  return (
    <Notice tone="heed" title={`${check.heldBy} is on this check`} announce="status">
      <div className={styles.line}>
        <p>
          Since {whenText(check.startedAt, now, zone)}, {check.answered} of {check.asked} answered. What you answer
          carries your name.
        </p>
        {may ? <Button onClick={() => setOpen(true)}>Take it over</Button> : null}
      </div>
      <Dialog open={open} title={`Take over from ${check.heldBy}`} onClose={() => setOpen(false)}>
        <ReasonForm
          label="Why?"
          suggestions={OFTEN}
          action="Take over this check"
          busy={take.busy}
          problem={take.problem}
          onSubmit={submit}
        />
      </Dialog>
    </Notice>
  );
}
