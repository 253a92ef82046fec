"use client";

import { type FormEvent, type ReactNode, useState } from "react";
import type { Problem } from "@/app/_parts/api.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { TextAreaField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import type { TaskView } from "@/lib/schemas/task";
import { ReasonField } from "./reason-field.client";
import { NOBODY, SuccessorField } from "./successor-field.client";

interface MoveFormProps {
  readonly task: TaskView;
  readonly onDone: () => void;
}

const NEEDS_REASON = "Say why: whoever comes next reads it.";

interface MoveFrameProps {
  readonly label: string;
  readonly busy: boolean;
  readonly problem: Problem | null;
  readonly onSubmit: () => void;
  readonly children: ReactNode;
}

function MoveFrame({ label, busy, problem, onSubmit, children }: MoveFrameProps) {
  const submit = (event: FormEvent) => {
    event.preventDefault();
    onSubmit();
  };
  return (
    <Form onSubmit={submit}>
      {children}
      <ProblemNotice problem={problem} />
      <Button type="submit" look="primary" size="large" wide busy={busy}>
        {label}
      </Button>
    </Form>
  );
}

export function PauseForm({ task, onDone }: MoveFormProps) {
  const [reason, setReason] = useState("");
  const [asked, setAsked] = useState(false);
  const { send, busy, problem } = useCommand("pause-task");
  const submit = async () => {
    setAsked(true);
    if (reason === "") return;
    const reply = await send({ key: task.key, reason });
    if (reply?.ok) onDone();
  };
  return (
    <MoveFrame label="Pause, it stays mine" busy={busy} problem={problem} onSubmit={submit}>
      <ReasonField
        legend="Why do you pause?"
        usual={["Self-test is running", "Called to another room", "Waiting for a part", "Room is in use"]}
        error={asked && reason === "" ? NEEDS_REASON : null}
        onReason={setReason}
      />
    </MoveFrame>
  );
}

export function HandOverForm({ task, onDone }: MoveFormProps) {
  const [to, setTo] = useState<string | null>(null);
  const [note, setNote] = useState("");
  const [asked, setAsked] = useState(false);
  const { send, busy, problem } = useCommand("hand-over-task");
  const submit = async () => {
    setAsked(true);
    if (to === null) return;
    const words = note.trim();
    const reply = await send({ key: task.key, toPersonId: to, ...(words ? { note: words } : {}) });
    if (reply?.ok) onDone();
  };
  return (
    <MoveFrame label="Hand over" busy={busy} problem={problem} onSubmit={submit}>
      <SuccessorField
        task={task}
        legend="To whom?"
        nobody={null}
        value={to}
        error={asked && to === null ? "Choose who goes on with it." : null}
        onChange={setTo}
      />
      <TextAreaField
        label="What they should know"
        hint="It may stay empty."
        rows={2}
        maxLength={300}
        value={note}
        onChange={({ target }) => setNote(target.value)}
      />
    </MoveFrame>
  );
}

export function TakeOverForm({ task, onDone }: MoveFormProps) {
  const [reason, setReason] = useState("");
  const [asked, setAsked] = useState(false);
  const { send, busy, problem } = useCommand("take-over-task");
  const from = task.claim?.name ?? "whoever has it";
  const submit = async () => {
    setAsked(true);
    if (reason === "") return;
    const reply = await send({ key: task.key, reason });
    if (reply?.ok) onDone();
  };
  return (
    <MoveFrame label={`Take over from ${from}`} busy={busy} problem={problem} onSubmit={submit}>
      <p>{from} loses it, and the record says that you took it and why.</p>
      <ReasonField
        legend="Why do you take it?"
        usual={["Agreed with them", "They are in another room", "They have gone off duty"]}
        error={asked && reason === "" ? NEEDS_REASON : null}
        onReason={setReason}
      />
    </MoveFrame>
  );
}

interface Passed {
  readonly to: string | null;
  readonly next: readonly string[];
  readonly told: readonly string[];
}

export function CannotForm({ task, onDone }: MoveFormProps) {
  const [reason, setReason] = useState("");
  const [to, setTo] = useState<string>(NOBODY);
  const [asked, setAsked] = useState(false);
  const [passed, setPassed] = useState<Passed | null>(null);
  const { send, busy, problem } = useCommand("cannot-do-task");
  const submit = async () => {
    setAsked(true);
    if (reason === "") return;
    const reply = await send({ key: task.key, reason, ...(to === NOBODY ? {} : { toPersonId: to }) });
    if (reply?.ok) setPassed(reply.value);
  };
  if (passed) return <WhoNext passed={passed} onDone={onDone} />;
  return (
    <MoveFrame label="Pass it on" busy={busy} problem={problem} onSubmit={submit}>
      <ReasonField
        legend="Why can it not be done?"
        usual={["The part is not in stock", "The room is in use", "It needs a biomedical engineer", "I am called away"]}
        error={asked && reason === "" ? NEEDS_REASON : null}
        onReason={setReason}
      />
      <SuccessorField
        task={task}
        legend="Who goes on with it?"
        nobody="Back to the list, for anybody"
        value={to}
        error={null}
        onChange={setTo}
      />
    </MoveFrame>
  );
}

/** Who has it now, or who could, and who was told: nobody should have to hope that somebody saw it. */
function WhoNext({ passed: { to, next, told }, onDone }: { passed: Passed; onDone: () => void }) {
  return (
    <>
      <Notice tone="done" title={to ? `${to} has it now` : "It is back in the list"} announce="status">
        {to ? null : (
          <p>
            {next.length > 0
              ? `On duty and able to: ${next.join(", ")}.`
              : "Nobody else on duty may do it: tell somebody yourself."}
          </p>
        )}
        {told.length > 0 ? <p>Marked for {told.join(", ")}.</p> : null}
      </Notice>
      <Button look="primary" size="large" wide onClick={onDone}>
        To do
      </Button>
    </>
  );
}
