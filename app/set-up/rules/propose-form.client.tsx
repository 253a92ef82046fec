"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Choice } from "@/app/_ui/choice";
import { TextAreaField, TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Saved } from "@/app/set-up/saved.client";
import styles from "@/app/set-up/set-up.module.css";
import type { RuleLine } from "@/lib/schemas/rules";
import { asValue, same, startOf, type TypedValue } from "./typed-value";
import { ValueField } from "./value-field.client";

const ON = [
  { value: "on", label: "on" },
  { value: "off", label: "off" },
] as const;

/** What somebody wants of a rule, and why. Nothing is in force before a second person approves. */
export function ProposeForm({ rule, onProposed }: { rule: RuleLine; onProposed: () => void }) {
  const { send, busy, problem } = useCommand("propose-rules");
  const [on, setOn] = useState(rule.on);
  const [typed, setTyped] = useState<TypedValue[]>(() => rule.values.map(({ present }) => startOf(present)));
  const [reason, setReason] = useState("");
  const [citation, setCitation] = useState("");
  const propose = async (change: Parameters<typeof send>[0]["change"]) => {
    if ((await send({ rule: rule.id, change, reason }))?.ok) onProposed();
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const values = Object.fromEntries(
      rule.values.flatMap(({ name, shipped }, place) => {
        const value = asValue(shipped, typed[place]);
        return same(value, shipped) ? [] : [[name, value]];
      }),
    );
    void propose({ on, values, ...(citation.trim() === "" ? {} : { citation }) });
  };
  return (
    <Form onSubmit={submit}>
      <p>{rule.what}</p>
      {rule.severity === null ? null : (
        <Choice
          legend="This rule is"
          options={ON}
          value={on ? "on" : "off"}
          onChange={(value) => setOn(value === "on")}
          error={fieldMessage(problem, "on")}
        />
      )}
      {rule.values.map((value, place) => (
        <ValueField
          key={value.name}
          value={value}
          typed={typed[place] ?? startOf(value.present)}
          error={fieldMessage(problem, `values.${value.name}`) ?? fieldMessage(problem, `change.values.${value.name}`)}
          onTyped={(next) => setTyped(typed.map((one, at) => (at === place ? next : one)))}
        />
      ))}
      <TextField
        label="Where your policy says so"
        hint="May be left empty; then the shipped source stands"
        value={citation}
        onChange={(event) => setCitation(event.target.value)}
      />
      <TextAreaField
        label="Why"
        rows={3}
        value={reason}
        error={fieldMessage(problem, "reason")}
        onChange={(event) => setReason(event.target.value)}
      />
      <p className={styles.soft}>Somebody else must approve it. It is in force from then on, in every room.</p>
      <Saved problem={problem} busy={busy} saved={null} label="Propose">
        {rule.version === 0 ? null : (
          <Button busy={busy} onClick={() => propose("shipped")}>
            Propose the shipped default
          </Button>
        )}
      </Saved>
    </Form>
  );
}
