"use client";

import { type FormEvent, useState } from "react";
import { AnswerField } from "@/app/_parts/answer/answer-field.client";
import { type FieldError, type GivenAnswer, readAll } from "@/app/_parts/answer/read-all";
import type { Typed } from "@/app/_parts/answer/typed";
import { useKeptTyped } from "@/app/_parts/answer/use-kept-typed.client";
import { countText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useMayDo, useSession } from "@/app/_parts/session.client";
import { SignedResult } from "@/app/_parts/signed-result.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { TextAreaField } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import type { CheckItemView } from "@/lib/schemas/check";
import type { TaskView } from "@/lib/schemas/task";
import styles from "./task-page.module.css";

export interface FinishFormProps {
  readonly taskKey: string;
  readonly items: readonly CheckItemView[];
  readonly place: Pick<TaskView, "room" | "workstation">;
  readonly onFinished: () => void;
}

/** The items that clear a task, each with its fields; one signature finishes it with them as its evidence. */
export function FinishForm({ taskKey, items, place, onFinished }: FinishFormProps) {
  const session = useSession();
  const fields = useKeptTyped(`yokeboard.task.${taskKey}.${session?.person.id ?? ""}`, items);
  const [errors, setErrors] = useState<Readonly<Record<string, FieldError>>>({});
  const [note, setNote] = useState("");
  const [signed, setSigned] = useState<{ failing: number; noLongerNeeded: boolean } | null>(null);
  const { send, busy, problem } = useCommand("finish-task");
  const mayFinish = useMayDo("finish-task");
  /** A field being put right is no longer wrong; whether it is right now is asked at the next signing. */
  const change = (key: string, typed: Typed) => {
    fields.change(key, typed);
    setErrors((before) => Object.fromEntries(Object.entries(before).filter(([item]) => item !== key)));
  };
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const read = readAll(items, fields.of);
    setErrors(read.errors);
    if (!read.ok) return;
    const where = place.workstation ? { workstationId: place.workstation.id } : {};
    const reply = await send({ key: taskKey, ...where, ...withNote(read.answers, note.trim()) });
    if (!reply?.ok) return;
    fields.clear();
    setSigned(reply.value);
    onFinished();
  };
  if (signed !== null) {
    const { failing, noLongerNeeded } = signed;
    return (
      <SignedResult words={noLongerNeeded ? "Signed, though no longer needed" : "Done and signed"} room={place.room}>
        {noLongerNeeded ? <p>Somebody had cleared it meanwhile. What you saw is on record.</p> : null}
        {failing > 0 ? (
          <Notice tone="wrong" title={`${countText(failing, "answer")} failing: counted at once`} />
        ) : null}
      </SignedResult>
    );
  }
  const missing = Object.keys(errors).length;
  return (
    <form className={styles.steps} onSubmit={submit} noValidate>
      {items.map((item) => (
        <section key={item.key} className={styles.item} aria-label={item.title}>
          <ItemWords item={item} />
          <AnswerField
            form={item.form}
            typed={fields.of(item)}
            label={item.title}
            limits={item.limits}
            error={errors[item.key] ?? null}
            item={item.item}
            onTyped={(typed) => change(item.key, typed)}
            onComplete={(typed) => change(item.key, typed)}
          />
        </section>
      ))}
      <TextAreaField
        label="Note"
        hint="It may stay empty."
        maxLength={500}
        rows={2}
        value={note}
        onChange={(event) => setNote(event.target.value)}
      />
      {missing > 0 ? (
        <Notice tone="wrong" title={`${countText(missing, "item")} to complete above`} announce="alert" />
      ) : null}
      <ProblemNotice problem={problem} />
      <Button
        type="submit"
        look="primary"
        size="large"
        wide
        busy={busy}
        disabledReason={mayFinish ? null : "Your roles do not include finishing this task."}
      >
        Sign as performed: {session?.person.name}
      </Button>
    </form>
  );
}

/** Of a single item the note is the answer's own: a cause told there is read again wherever the answer is. */
function withNote(answers: readonly GivenAnswer[], words: string) {
  if (words === "") return { answers: [...answers] };
  const [only, ...others] = answers;
  if (!only || others.length > 0) return { answers: [...answers], note: words };
  return { answers: [{ ...only, answer: { ...only.answer, note: words } }] };
}

function ItemWords({ item }: { item: CheckItemView }) {
  return (
    <div>
      <h2>{item.title}</h2>
      <p>{item.how}</p>
      {item.why ? (
        <details>
          <summary>Why?</summary>
          <p>{item.why}</p>
        </details>
      ) : null}
    </div>
  );
}
