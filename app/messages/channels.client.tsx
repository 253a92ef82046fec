"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { whenText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import type { MessagesView } from "@/lib/schemas/messages";
import styles from "./messages.module.css";
import { PushHere } from "./push-here.client";

interface ChannelsProps {
  readonly view: MessagesView;
  readonly zone: string;
  readonly onChanged: () => void;
}

const KIND_WORDS = { push: "This kind of device", webhook: "Webhook", mail: "Mail" } as const;

/** Every way with what became of its last message, and the three ways to add one. */
export function Channels({ view, zone, onChanged }: ChannelsProps) {
  return (
    <div className={styles.stack}>
      {view.channels.length === 0 ? (
        <p>Only by this screen so far. What you are asked waits here until you look.</p>
      ) : (
        <ul className={styles.list}>
          {view.channels.map((channel) => (
            <Channel key={channel.id} channel={channel} now={view.at} zone={zone} onChanged={onChanged} />
          ))}
        </ul>
      )}
      <PushHere pushKey={view.pushKey} onChanged={onChanged} />
      <AddAddress kind="mail" onChanged={onChanged} />
      {view.mail ? null : <Notice title="This server sends no mail yet: its administrator sets up the mail server" />}
      <AddAddress kind="webhook" onChanged={onChanged} />
    </div>
  );
}

function Channel({
  channel: { id, kind, label, last, secret },
  now,
  zone,
  onChanged,
}: {
  channel: MessagesView["channels"][number];
  now: string;
  zone: string;
  onChanged: () => void;
}) {
  const test = useCommand("test-channel");
  const remove = useCommand("remove-channel");
  const run = async (command: typeof test | typeof remove) => {
    await command.send({ channelId: id });
    onChanged();
  };
  return (
    <li className={styles.asked}>
      <p>
        <strong>{kind === "push" ? "Push" : KIND_WORDS[kind]}</strong> {label}
      </p>
      <p className={styles.soft}>{last ? lastWords(last, now, zone) : "Nothing was sent by this way yet"}</p>
      {secret ? (
        <details>
          <summary>Secret that signs its messages</summary>
          <p className={styles.secret}>{secret}</p>
        </details>
      ) : null}
      <div className={styles.actions}>
        <Button size="large" busy={test.busy} onClick={() => run(test)} aria-label={`Send a test to ${label}`}>
          Send a test
        </Button>
        <Button size="large" busy={remove.busy} onClick={() => run(remove)} aria-label={`Remove ${label}`}>
          Remove
        </Button>
      </div>
      <ProblemNotice problem={test.problem ?? remove.problem} />
    </li>
  );
}

function lastWords(
  { at, sentAt, attempts, problem }: NonNullable<MessagesView["channels"][number]["last"]>,
  now: string,
  zone: string,
): string {
  if (sentAt) return `Last message sent ${whenText(sentAt, now, zone)}`;
  if (problem) return `Last message of ${whenText(at, now, zone)} not sent, ${attempts} tried: ${problem}`;
  return `Last message of ${whenText(at, now, zone)} is on its way`;
}

const ADD = {
  mail: { label: "Mail address", hint: "Such as n.halabi@hospital.example", action: "Add mail" },
  webhook: {
    label: "Webhook address",
    hint: "A program of your department that passes it on, such as a pager gateway; https, or one that the administrator allowed",
    action: "Add webhook",
  },
} as const;

function AddAddress({ kind, onChanged }: { kind: "mail" | "webhook"; onChanged: () => void }) {
  const [to, setTo] = useState("");
  const { send, busy, problem } = useCommand("add-channel");
  const { label, hint, action } = ADD[kind];
  const error = fieldMessage(problem, "to");
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const reply = await send({ kind, to: to.trim() });
    if (!reply?.ok) return;
    setTo("");
    onChanged();
  };
  return (
    <Form onSubmit={submit}>
      <TextField
        label={label}
        hint={hint}
        value={to}
        error={error}
        onChange={({ target }) => setTo(target.value)}
        autoComplete={kind === "mail" ? "email" : "off"}
      />
      {error ? null : <ProblemNotice problem={problem} />}
      <Button type="submit" size="large" busy={busy}>
        {action}
      </Button>
    </Form>
  );
}
