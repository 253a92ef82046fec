"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import { Panel } from "@/app/_ui/panel";

/** The short secret for signing, which gloved hands type before every first case. */
export function PinForm() {
  const [current, setCurrent] = useState("");
  const [pin, setPin] = useState("");
  const [saved, setSaved] = useState(false);
  const { send, busy, problem } = useCommand("set-pin");
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setSaved(false);
    const proof = current === "" ? null : { kind: "password" as const, value: current };
    const reply = await send({ current: proof, pin });
    if (!reply?.ok) return;
    setSaved(true);
    setCurrent("");
    setPin("");
  };
  return (
    <Panel title="PIN for signing">
      <Form onSubmit={submit}>
        <p>Signs and unlocks in place of the password. It opens nothing on a screen where you have not signed in.</p>
        {saved ? <Notice tone="done" title="Your PIN is changed" announce="status" /> : null}
        <ProblemNotice problem={problem} />
        <TextField
          label="Password"
          hint="Leave it empty if you have just come in by your organisation’s sign-in."
          type="password"
          autoComplete="current-password"
          value={current}
          error={fieldMessage(problem, "current")}
          onChange={(event) => setCurrent(event.target.value)}
        />
        <TextField
          label="New PIN"
          hint="6 to 12 digits"
          type="password"
          inputMode="numeric"
          autoComplete="off"
          required
          value={pin}
          error={fieldMessage(problem, "pin")}
          onChange={(event) => setPin(event.target.value)}
        />
        <Button type="submit" look="primary" busy={busy}>
          Save the PIN
        </Button>
      </Form>
    </Panel>
  );
}
