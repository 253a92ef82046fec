"use client";

import { useQuery } from "@tanstack/react-query";
import { type FormEvent, useState } from "react";
import { viewOrThrow } from "@/app/_parts/api.client";
import { clockText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useSession } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Field } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import type { MessagesView } from "@/lib/schemas/messages";
import type { TaskView } from "@/lib/schemas/task";
import { ReasonField } from "./reason-field.client";

/** One person is asked, by the ways they chose. Who is on duty stands first. */
export function AskForm({ task, onDone }: { task: TaskView; onDone: () => void }) {
  const session = useSession();
  const zone = session?.facility.timeZone ?? "UTC";
  const { data } = useQuery({
    queryKey: ["messages", session?.facility.id],
    queryFn: () => viewOrThrow<MessagesView>("/api/v1/messages"),
  });
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
      <Field label="Who is asked?" error={tried && to === "" ? "Choose one person." : null}>
        {(control) => (
          <select {...control} value={to} onChange={({ target }) => setTo(target.value)}>
            <option value="">Choose a person</option>
            {data.people.map(({ id, name, onDuty }) => (
              <option key={id} value={id}>
                {onDuty ? `${name}, on duty` : name}
              </option>
            ))}
          </select>
        )}
      </Field>
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
