"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { TextAreaField, TextField } from "@/app/_ui/field";
import { Form, FormActions } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import { Panel } from "@/app/_ui/panel";
import type { DraftView } from "@/lib/schemas/procedure";
import type { Text } from "./draft-screen.client";

interface SaveBarProps {
  readonly draft: DraftView;
  readonly text: Text;
  readonly changed: boolean;
  readonly mayEdit: boolean;
  readonly today: string;
  /** With the revision that was saved here; null when nothing was. */
  readonly onSaved: (revision: number | null) => void;
}

/** Save first, then propose: what a second person reads is what was saved. */
export function SaveBar({ draft, text, changed, mayEdit, today, onSaved }: SaveBarProps) {
  const router = useRouter();
  const save = useCommand("save-procedure");
  const drop = useCommand("drop-procedure");
  const { id: draftId, revision } = draft;
  const keep = async () => {
    const reply = await save.send({ draftId, revision, text });
    // Saved or not: what stands now is read again, and a refusal says whose it is.
    onSaved(reply?.ok ? reply.value.revision : null);
  };
  const giveUp = async () => {
    const reply = await drop.send({ draftId, revision });
    if (reply?.ok) router.push("/set-up/procedures");
  };
  return (
    <>
      {changed ? <Notice tone="heed" title="Not saved yet" announce="status" /> : null}
      <ProblemNotice problem={save.problem ?? drop.problem} />
      <FormActions>
        <Button
          look="primary"
          size="large"
          busy={save.busy}
          onClick={keep}
          disabledReason={mayEdit ? null : "Your roles do not include writing procedures."}
        >
          Save the draft
        </Button>
        <Button size="large" busy={drop.busy} onClick={giveUp}>
          Give the draft up
        </Button>
      </FormActions>
      {changed ? null : <Propose draft={draft} today={today} onDone={() => onSaved(null)} />}
    </>
  );
}

function Propose({ draft, today, onDone }: { draft: DraftView; today: string; onDone: () => void }) {
  const [inForceOn, setInForceOn] = useState(draft.inForceOn ?? today);
  const [reason, setReason] = useState(draft.reason ?? "");
  const { send, busy, problem } = useCommand("propose-procedure");
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const reply = await send({ draftId: draft.id, revision: draft.revision, inForceOn, reason: reason.trim() });
    if (reply?.ok) onDone();
  };
  const errors = { inForceOn: fieldMessage(problem, "inForceOn"), reason: fieldMessage(problem, "reason") };
  return (
    <Panel title="Propose it" aside="somebody else approves">
      <Form onSubmit={submit}>
        <TextField
          label="In force from the check day"
          type="date"
          min={today}
          value={inForceOn}
          error={errors.inForceOn}
          onChange={({ target }) => setInForceOn(target.value)}
        />
        <TextAreaField
          label="Why"
          rows={2}
          maxLength={500}
          value={reason}
          error={errors.reason}
          onChange={({ target }) => setReason(target.value)}
        />
        {errors.inForceOn || errors.reason ? null : <ProblemNotice problem={problem} />}
        <Button type="submit" size="large" busy={busy}>
          Propose
        </Button>
      </Form>
    </Panel>
  );
}
