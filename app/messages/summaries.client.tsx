"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import type { MessagesView } from "@/lib/schemas/messages";

/** Two summaries, each at its time or not at all. An empty time is none. */
export function Summaries({ view, onChanged }: { view: MessagesView; onChanged: () => void }) {
  const [morning, setMorning] = useState(view.summaries.morning ?? "");
  const [week, setWeek] = useState(view.summaries.week ?? "");
  const [saved, setSaved] = useState(false);
  const { send, busy, problem } = useCommand("choose-summaries");
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setSaved(false);
    const reply = await send({ morning: morning || null, week: week || null });
    if (!reply?.ok) return;
    setSaved(true);
    onChanged();
  };
  const errors = { morning: fieldMessage(problem, "morning"), week: fieldMessage(problem, "week") };
  return (
    <Form onSubmit={submit}>
      <TextField
        label="The morning, every day at"
        hint="Which rooms are ready, which need somebody, and what was asked of whom. Empty: none."
        type="time"
        value={morning}
        error={errors.morning}
        onChange={({ target }) => setMorning(target.value)}
      />
      <TextField
        label="The week, on Mondays at"
        hint="How many daily checks were done in time, and the rooms behind. Empty: none."
        type="time"
        value={week}
        error={errors.week}
        onChange={({ target }) => setWeek(target.value)}
      />
      {errors.morning || errors.week ? null : <ProblemNotice problem={problem} />}
      {saved ? <Notice tone="done" title="Saved" announce="status" /> : null}
      <Button type="submit" size="large" busy={busy}>
        Save
      </Button>
    </Form>
  );
}
