"use client";

import { type FormEvent, useState } from "react";
import { clockText, whenText } from "@/app/_parts/format";
import { PersonField } from "@/app/_parts/person-field.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import { TextAreaField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { LinkButton } from "@/app/_ui/link-button";
import type { EscalationView, MessagesView } from "@/lib/schemas/messages";
import styles from "./messages.module.css";

interface AskedProps {
  readonly escalation: EscalationView;
  readonly view: MessagesView;
  readonly zone: string;
  readonly onChanged: () => void;
}

const OVER = {
  "passed-on": "You passed it on",
  unanswered: "No answer came in time; somebody else was asked",
  over: "It is taken or done",
} as const;

/** One request: what, who asked, until when an answer is waited for, and the two answers there are. */
export function AskedOfYou({ escalation, view, zone, onChanged }: AskedProps) {
  const { id, reason, by, at, answerBy, answeredAt, outcome } = escalation;
  const [passing, setPassing] = useState(false);
  const answer = useCommand("acknowledge-escalation");
  const have = async () => {
    await answer.send({ escalationId: id });
    onChanged();
  };
  const standing = outcome
    ? OVER[outcome]
    : answeredAt
      ? `You have it, since ${clockText(answeredAt, zone)}`
      : `Answer by ${clockText(answerBy, zone)}; then somebody else is asked`;
  return (
    <li className={styles.asked} data-open={outcome === null && answeredAt === null ? "" : undefined}>
      <p>
        <strong>{reason}</strong>
      </p>
      <p className={styles.soft}>
        {by ?? "Yokeboard"}, {whenText(at, view.at, zone)} · {standing}
      </p>
      {outcome === null ? (
        <div className={styles.actions}>
          {answeredAt === null ? (
            <Button look="primary" size="large" busy={answer.busy} onClick={have}>
              I have it
            </Button>
          ) : null}
          <Button size="large" onClick={() => setPassing(true)}>
            Pass it on
          </Button>
          <LinkButton href={`/tasks/${encodeURIComponent(escalation.taskKey)}`} size="large">
            The task
          </LinkButton>
        </div>
      ) : null}
      <ProblemNotice problem={answer.problem} />
      <Dialog open={passing} title="Pass it on" onClose={() => setPassing(false)}>
        <PassOn
          id={id}
          people={view.people}
          onDone={() => {
            setPassing(false);
            onChanged();
          }}
        />
      </Dialog>
    </li>
  );
}

function PassOn({ id, people, onDone }: { id: string; people: MessagesView["people"]; onDone: () => void }) {
  const [to, setTo] = useState("");
  const [note, setNote] = useState("");
  const [asked, setAsked] = useState(false);
  const { send, busy, problem } = useCommand("pass-on-escalation");
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (to === "") return;
    const words = note.trim();
    const reply = await send({ escalationId: id, personId: to, ...(words ? { note: words } : {}) });
    if (reply?.ok) onDone();
  };
  return (
    <Form onSubmit={submit}>
      <PersonField
        label="To whom?"
        people={people}
        value={to}
        error={asked && to === "" ? "Choose who is asked in your place." : null}
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
      <ProblemNotice problem={problem} />
      <Button type="submit" look="primary" size="large" wide busy={busy}>
        Pass it on
      </Button>
    </Form>
  );
}
