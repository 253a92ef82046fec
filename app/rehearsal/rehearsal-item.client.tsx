"use client";

import { type FormEvent, useEffect, useRef } from "react";
import { AnswerField } from "@/app/_parts/answer/answer-field.client";
import type { FieldError } from "@/app/_parts/answer/read-all";
import type { Typed } from "@/app/_parts/answer/typed";
import { Button } from "@/app/_ui/button.client";
import type { RehearsalQuestionView } from "@/lib/schemas/rehearsal";
import styles from "./rehearsal.module.css";

export interface RehearsalItemProps {
  readonly question: RehearsalQuestionView;
  readonly position: string;
  /** How many of its signs were looked at. */
  readonly seen: number;
  readonly typed: Typed;
  readonly error: FieldError | null;
  readonly onLook: () => void;
  readonly onTyped: (typed: Typed) => void;
  readonly onComplete: (typed: Typed) => void;
  readonly onSkip: () => void;
}

/** What to do, what is seen when it is done, and the same fields as in a real check. It may be answered unseen: that is the lesson. */
export function RehearsalItem(props: RehearsalItemProps) {
  const { question, position, seen, typed, error, onLook, onTyped, onComplete, onSkip } = props;
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => title.current?.focus({ preventScroll: true }), []);
  const next = question.signs[seen] ?? null;
  const submit = (event: FormEvent) => {
    event.preventDefault();
    onComplete(typed);
  };
  return (
    <form className={styles.item} onSubmit={submit} noValidate aria-labelledby="rehearsal-title">
      <p className={styles.position}>{position}</p>
      <h2 id="rehearsal-title" ref={title} tabIndex={-1}>
        {question.title}
      </h2>
      <p className={styles.how}>{question.how}</p>
      <ol className={styles.signs} aria-live="polite" aria-label="What you did and saw">
        {question.signs.slice(0, seen).map(({ act, see }) => (
          <li key={act}>
            <span className={styles.act}>{act}</span>
            <span className={styles.see}>{see}</span>
          </li>
        ))}
      </ol>
      {next ? (
        <Button size="large" wide onClick={onLook}>
          {next.act}
        </Button>
      ) : null}
      <AnswerField
        form={question.form}
        typed={typed}
        label={question.title}
        limits={question.limits}
        error={error}
        item={question.item}
        onTyped={onTyped}
        onComplete={onComplete}
      />
      <div className={styles.footer}>
        <Button size="large" onClick={onSkip}>
          Leave out
        </Button>
        <Button size="large" look="primary" type="submit" wide>
          Go on
        </Button>
      </div>
    </form>
  );
}
