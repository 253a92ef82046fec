"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useSession } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { TextField } from "@/app/_ui/field";
import { Form, FormActions } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import styles from "@/app/set-up/set-up.module.css";

/** The old one once, the new one twice: it is typed blind. */
export function PasswordForm() {
  const userId = useSession()?.person.userId ?? "";
  const { send, busy, problem } = useCommand("set-password");
  const [current, setCurrent] = useState("");
  const [next, setNext] = useState("");
  const [again, setAgain] = useState("");
  const [differs, setDiffers] = useState(false);
  const [done, setDone] = useState(false);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setDone(false);
    setDiffers(next !== again);
    if (next !== again) return;
    const reply = await send({ current, next });
    if (!reply?.ok) return;
    setDone(true);
    setCurrent("");
    setNext("");
    setAgain("");
  };
  return (
    <div className={styles.narrow}>
      <Form onSubmit={submit}>
        <input type="text" name="username" autoComplete="username" value={userId} readOnly hidden />
        <TextField
          label="Current password"
          type="password"
          autoComplete="current-password"
          value={current}
          error={fieldMessage(problem, "current")}
          onChange={(event) => setCurrent(event.target.value)}
        />
        <TextField
          label="New password"
          type="password"
          autoComplete="new-password"
          value={next}
          error={fieldMessage(problem, "next")}
          onChange={(event) => setNext(event.target.value)}
        />
        <TextField
          label="New password again"
          type="password"
          autoComplete="new-password"
          value={again}
          error={differs ? "The two do not match. Type the new password again." : null}
          onChange={(event) => setAgain(event.target.value)}
        />
        <ProblemNotice problem={problem} />
        {done ? <Notice tone="done" title="Your password is changed" announce="status" /> : null}
        <FormActions>
          <Button type="submit" look="primary" busy={busy}>
            Change password
          </Button>
        </FormActions>
      </Form>
    </div>
  );
}
