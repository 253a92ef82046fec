"use client";

import { type FormEvent, useState } from "react";
import { clockText } from "@/app/_parts/format";
import { PersonField } from "@/app/_parts/person-field.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useSession } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { useMessages } from "@/app/_parts/use-messages.client";
import { Button } from "@/app/_ui/button.client";
import { Form } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import type { TaskView } from "@/lib/schemas/task";
import { ReasonField } from "./reason-field.client";

/** One person is asked, by the ways they chose. Who is on duty stands first. */
export function AskForm({ task, onDone }: { task: TaskView; onDone: () => void }) {
  const session = useSession();
  const zone = session?.facility.timeZone ?? "UTC";
  const { data } = useMessages();
  const [to, setTo] = useState("");
  const [reason, setReason] = useState("");
  const [tried, setTried] = useState(false);
  const [asked, setAsked] = useState<{ name: string; answerBy: string } | null>(null);
  const { send, busy, problem } = useCommand("escalate-task");
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (to === "" || reason === "") return;
    const reply = await send({ key: task.key, personId: to, reason });
    if (reply?.ok) setAsked(reply.value);
  };
  if (asked) return <Told name={asked.name} until={clockText(asked.answerBy, zone)} onDone={onDone} />;
  if (!data) return <p role="status">Reading who is here…</p>;
  return (
    <Form onSubmit={submit}>
      <PersonField
        label="Who is asked?"
        people={data.people}
        value={to}
        error={tried && to === "" ? "Choose one person." : null}
        onChange={setTo}
      />
      <ReasonField
        legend="Why?"
        usual={[
          "It will not be done in time",
          "Nobody on duty may do it",
          "The part is not in stock",
          "It needs a decision",
        ]}
        error={tried && reason === "" ? "Say why: it is what they read first." : null}
        onReason={setReason}
      />
      <ProblemNotice problem={problem} />
      <Button type="submit" look="primary" size="large" wide busy={busy}>
        Ask
      </Button>
    </Form>
  );
}

function Told({ name, until, onDone }: { name: string; until: string; onDone: () => void }) {
  return (
    <>
      <Notice tone="done" title={`${name} is asked`} announce="status">
        <p>Without an answer by {until} somebody else is asked.</p>
      </Notice>
      <Button look="primary" size="large" wide onClick={onDone}>
        To do
      </Button>
    </>
  );
}
