"use client";

import { type FormEvent, useState } from "react";
import { AnswerField } from "@/app/_parts/answer/answer-field.client";
import { type FieldError, readAll } from "@/app/_parts/answer/read-all";
import { isUntouched, type Typed, untouched } from "@/app/_parts/answer/typed";
import { fieldMessage } from "@/app/_parts/api.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Field, TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { LinkButton } from "@/app/_ui/link-button";
import { Notice } from "@/app/_ui/notice";
import type { CheckItemView } from "@/lib/schemas/check";
import type { PaperSheetView } from "@/lib/schemas/downtime";
import styles from "./paper-form.module.css";

interface Head {
  readonly doneBy: string;
  readonly kind: "daily" | "first-user";
  readonly on: string;
  readonly from: string;
  readonly to: string;
}

/** All items one under the other, as on the sheet. What is typed stays, whatever the server says. */
export function PaperForm({ sheet }: { sheet: PaperSheetView }) {
  const [head, setHead] = useState<Head>({ doneBy: "", kind: "daily", on: sheet.today, from: "", to: "" });
  const [typed, setTyped] = useState<Readonly<Record<string, Typed>>>({});
  const [errors, setErrors] = useState<Readonly<Record<string, FieldError>>>({});
  const { send, busy, problem } = useCommand("enter-paper-check");
  const [entered, setEntered] = useState<{ checkId: string; failing: number; yours: boolean } | null>(null);
  const fieldsOf = (item: CheckItemView) => typed[item.key] ?? untouched(item.form);
  const answered = sheet.items.filter((item) => !isUntouched(fieldsOf(item)));

  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const read = readAll(answered, fieldsOf);
    setErrors(read.errors);
    if (!read.ok) return;
    const reply = await send({ workstationId: sheet.workstation.id, ...head, answers: read.answers });
    if (reply?.ok) setEntered(reply.value);
  };
  if (entered) return <Entered {...entered} doneBy={sheet.people.find(({ id }) => id === head.doneBy)?.name ?? ""} />;
  return (
    <Form onSubmit={submit}>
      <Heads head={head} sheet={sheet} problem={problem} onChange={(change) => setHead({ ...head, ...change })} />
      {sheet.items.map((item, place) => (
        <section key={item.key} className={styles.item} aria-labelledby={`paper-${place}`}>
          <h2 id={`paper-${place}`}>{item.title}</h2>
          <AnswerField
            form={item.form}
            typed={fieldsOf(item)}
            label={item.title}
            limits={item.limits}
            error={errors[item.key] ?? null}
            item={item.item}
            onTyped={(next) => setTyped({ ...typed, [item.key]: next })}
            onComplete={(next) => setTyped({ ...typed, [item.key]: next })}
          />
        </section>
      ))}
      <ProblemNotice problem={problem} />
      <Button
        type="submit"
        look="primary"
        size="large"
        busy={busy}
        disabledReason={answered.length === 0 ? "Nothing has been answered yet." : null}
      >
        {`Enter ${answered.length} of ${sheet.items.length} answers`}
      </Button>
    </Form>
  );
}

interface HeadsProps {
  head: Head;
  sheet: PaperSheetView;
  problem: Parameters<typeof fieldMessage>[0];
  onChange: (change: Partial<Head>) => void;
}

/** Who did it, and when by the facility's own clock. */
function Heads({ head, sheet, problem, onChange }: HeadsProps) {
  return (
    <fieldset className={styles.heads}>
      <legend>What stands on top of the sheet</legend>
      <Field label="Done by" error={fieldMessage(problem, "doneBy")}>
        {(control) => (
          <select {...control} value={head.doneBy} onChange={(event) => onChange({ doneBy: event.target.value })}>
            <option value="">Choose</option>
            {sheet.people.map(({ id, name, userId }) => (
              <option key={id} value={id}>
                {`${name} (${userId})`}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label="Check" error={fieldMessage(problem, "kind")}>
        {(control) => (
          <select
            {...control}
            value={head.kind}
            onChange={(event) => onChange({ kind: event.target.value === "daily" ? "daily" : "first-user" })}
          >
            <option value="daily">Daily</option>
            <option value="first-user">First user</option>
          </select>
        )}
      </Field>
      <TextField
        label="Date"
        type="date"
        value={head.on}
        max={sheet.today}
        error={fieldMessage(problem, "on")}
        onChange={(event) => onChange({ on: event.target.value })}
      />
      <TextField
        label="From"
        type="time"
        value={head.from}
        error={fieldMessage(problem, "from")}
        onChange={(event) => onChange({ from: event.target.value })}
      />
      <TextField
        label="To"
        hint="An end before the beginning is on the next day."
        type="time"
        value={head.to}
        error={fieldMessage(problem, "to")}
        onChange={(event) => onChange({ to: event.target.value })}
      />
    </fieldset>
  );
}

/** The mark belongs to who did the check; nobody gives it in their place. */
function Entered({
  checkId,
  failing,
  yours,
  doneBy,
}: {
  checkId: string;
  failing: number;
  yours: boolean;
  doneBy: string;
}) {
  const fails =
    failing === 0 ? "" : ` ${failing} of the answers ${failing === 1 ? "fails" : "fail"}, and that counts at once.`;
  return (
    <>
      <Notice tone="done" title="Entered" announce="status">
        <p>
          {yours
            ? "Sign it, so that its passing answers count."
            : `${doneBy} signs it; its passing answers count from then on.`}
          {fails}
        </p>
      </Notice>
      <div className={styles.actions}>
        <LinkButton href={`/checks/${checkId}`} look={yours ? "primary" : "plain"}>
          {yours ? "Look at it and sign" : "Look at it"}
        </LinkButton>
        <LinkButton href="/downtime/enter">Enter another sheet</LinkButton>
      </div>
    </>
  );
}
