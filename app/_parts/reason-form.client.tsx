"use client";

import { type FormEvent, type ReactNode, useState } from "react";
import { Button, type ButtonLook } from "@/app/_ui/button.client";
import { TextAreaField } from "@/app/_ui/field";
import { Form, FormActions } from "@/app/_ui/form";
import { fieldMessage, type Problem } from "./api.client";
import { ProblemNotice } from "./problem-notice";

export interface ReasonFormProps {
  label: string;
  hint?: string;
  action: string;
  look?: ButtonLook;
  busy: boolean;
  problem: Problem | null;
  /** The field's name in the command, for what the server says about it. */
  field?: string;
  most?: number;
  /** What is said most often: a tap instead of typing with gloves on. */
  suggestions?: readonly string[];
  /** What is chosen before the words are said. */
  lead?: ReactNode;
  /** More to choose, between the words and the button. */
  children?: ReactNode;
  onSubmit: (reason: string) => Promise<void>;
}

/** A few words that go with an action. They stay where they are when it is refused. */
export function ReasonForm(props: ReasonFormProps) {
  const { label, hint, action, look = "primary", busy, problem, field = "reason", most = 300 } = props;
  const [reason, setReason] = useState("");
  const [missing, setMissing] = useState(false);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const said = reason.trim();
    setMissing(said === "");
    if (said !== "") void props.onSubmit(said);
  };
  const error = missing ? "Say it in a few words." : fieldMessage(problem, field);
  return (
    <Form onSubmit={submit}>
      {props.lead}
      <TextAreaField
        label={label}
        hint={hint}
        maxLength={most}
        value={reason}
        error={error}
        onChange={(event) => {
          setMissing(false);
          setReason(event.target.value);
        }}
      />
      <Suggestions words={props.suggestions ?? []} onChoose={setReason} />
      {props.children}
      <Button type="submit" look={look} size="large" wide busy={busy}>
        {action}
      </Button>
      {error ? null : <ProblemNotice problem={problem} />}
    </Form>
  );
}

function Suggestions({ words, onChoose }: { words: readonly string[]; onChoose: (reason: string) => void }) {
  if (words.length === 0) return null;
  return (
    <FormActions>
      {words.map((word) => (
        <Button key={word} onClick={() => onChoose(word)}>
          {word}
        </Button>
      ))}
    </FormActions>
  );
}
