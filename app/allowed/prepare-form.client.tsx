"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Choice } from "@/app/_ui/choice";
import { TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import type { VaporFreeView } from "@/lib/schemas/allowances";
import { dateIn, instantAt, instantOf, localTime, timeIn, timestampOf } from "@/lib/units/time";

interface PrepareFormProps {
  one: VaporFreeView;
  workstationId: string;
  now: string;
  zone: string;
  onPrepared: () => void;
}

/** What was done, from when to when, today. The minutes are counted, not typed. */
export function PrepareForm({ one, workstationId, now, zone, onPrepared }: PrepareFormProps) {
  const prepare = useCommand("prepare-vapor-free");
  const [method, setMethod] = useState<"flush" | "filters">("flush");
  const [from, setFrom] = useState("");
  const [to, setTo] = useState<string>(timeIn(zone, instantOf(now)));
  const [missing, setMissing] = useState(false);
  const today = dateIn(zone, instantOf(now));
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setMissing(from === "" || to === "");
    if (from === "" || to === "") return;
    const at = (time: string) => timestampOf(instantAt(zone, today, localTime(time)));
    const reply = await prepare.send({ workstationId, method, startedAt: at(from), endedAt: at(to) });
    if (reply?.ok) onPrepared();
  };
  const fromError = missing ? "Give both times." : fieldMessage(prepare.problem, "startedAt");
  const toError = fieldMessage(prepare.problem, "endedAt");
  return (
    <Form onSubmit={submit}>
      {one.filterMinutes === null ? null : (
        <Choice
          legend="How"
          options={[
            { value: "flush", label: "Flushed" },
            { value: "filters", label: "With vapor filters" },
          ]}
          value={method}
          onChange={setMethod}
        />
      )}
      <TextField
        label="Flush began"
        hint="After the last vaporizer was taken off."
        type="time"
        value={from}
        error={fromError}
        onChange={(event) => setFrom(event.target.value)}
      />
      <TextField
        label="Flush ended"
        type="time"
        value={to}
        error={toError}
        onChange={(event) => setTo(event.target.value)}
      />
      <Button type="submit" look="primary" size="large" busy={prepare.busy}>
        Sign the preparation
      </Button>
      {fromError || toError ? null : <ProblemNotice problem={prepare.problem} />}
    </Form>
  );
}
