"use client";

import { type FormEvent, useState } from "react";
import { type Typed, typedFrom } from "@/app/_parts/answer/typed";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import { TextAreaField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import type { CheckItemView } from "@/lib/schemas/check";

export interface FaultDialogProps {
  readonly item: CheckItemView;
  readonly workstationId: string;
  readonly open: boolean;
  readonly onClose: () => void;
  readonly onFail: (typed: Typed) => void;
}

/**
 * Something is wrong here. A question of works or not is answered with "not" and the words. A reading cannot fail without a reading:
 * what cannot be read is a reason to hold the workstation, and that is offered instead.
 */
export function FaultDialog({ item, workstationId, open, onClose, onFail }: FaultDialogProps) {
  return (
    <Dialog open={open} title={`Fault: ${item.title}`} onClose={onClose}>
      {item.form.kind === "pass" ? (
        <FailForm item={item} onFail={onFail} />
      ) : (
        <HoldForm item={item} workstationId={workstationId} onClose={onClose} />
      )}
    </Dialog>
  );
}

function FailForm({ item, onFail }: { item: CheckItemView; onFail: (typed: Typed) => void }) {
  const [note, setNote] = useState("");
  const no = item.form.kind === "pass" ? item.form.no : "";
  const submit = (event: FormEvent) => {
    event.preventDefault();
    onFail(typedFrom({ kind: "pass", passed: false, note }, item.form));
  };
  return (
    <Form onSubmit={submit}>
      {item.whenItFails ? <p>{item.whenItFails}</p> : null}
      <TextAreaField
        label="What did you see?"
        hint="Kept with the answer. It may stay empty."
        maxLength={500}
        rows={3}
        value={note}
        onChange={(event) => setNote(event.target.value)}
      />
      <Button type="submit" look="stop" size="large" wide>
        Record “{no}”
      </Button>
    </Form>
  );
}

function HoldForm({
  item,
  workstationId,
  onClose,
}: {
  item: CheckItemView;
  workstationId: string;
  onClose: () => void;
}) {
  const { send, busy, problem } = useCommand("hold-workstation");
  const [reason, setReason] = useState(`${item.title}: `);
  const [held, setHeld] = useState(false);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const reply = await send({ workstationId, reason });
    if (reply?.ok) setHeld(true);
  };
  if (held) {
    return (
      <>
        <Notice tone="done" title="Held: do not use" announce="status">
          <p>
            The board says so with your name and reason. You, or the charge provider, lift the hold on the room’s page.
          </p>
        </Notice>
        <Button size="large" wide onClick={onClose}>
          Back to the check
        </Button>
      </>
    );
  }
  return (
    <Form onSubmit={submit}>
      <p>A reading outside its limit needs nothing more: enter it as it is, and it counts at once.</p>
      <p>
        If it cannot be read, or something else is wrong, hold the workstation. The room turns to “Do not use” until the
        hold is lifted.
      </p>
      <TextAreaField
        label="Reason"
        maxLength={300}
        rows={3}
        value={reason}
        onChange={(event) => setReason(event.target.value)}
      />
      <ProblemNotice problem={problem} />
      <Button type="submit" look="stop" size="large" wide busy={busy}>
        Hold this workstation
      </Button>
    </Form>
  );
}
