"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { Said } from "@/app/_parts/said.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Choice } from "@/app/_ui/choice";
import { TextField } from "@/app/_ui/field";
import { Form, FormActions } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import type { Scheme } from "@/lib/domain/vocabulary";
import { SCHEMES, UNITS } from "./units";
import { ZoneField } from "./zone-field.client";

type Unit = "psi" | "kPa" | "bar";

/** Name, zone, scheme and unit. Scheme and unit decide limits, words and colours, so neither is guessed. */
export function FacilityForm() {
  const { send, busy, problem } = useCommand("add-facility");
  const [name, setName] = useState("");
  const [timeZone, setTimeZone] = useState("");
  const [scheme, setScheme] = useState<Scheme | null>(null);
  const [unit, setUnit] = useState<Unit | null>(null);
  const [asked, setAsked] = useState(false);
  const [added, setAdded] = useState<string | null>(null);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    setAdded(null);
    if (!scheme || !unit) return;
    const reply = await send({ name, timeZone, scheme, pressureUnit: unit });
    if (!reply?.ok) return;
    setAdded(name);
    setName("");
    setAsked(false);
  };
  return (
    <Form onSubmit={submit}>
      <TextField
        label="Name"
        autoComplete="off"
        value={name}
        error={fieldMessage(problem, "name")}
        onChange={(event) => setName(event.target.value)}
      />
      <ZoneField value={timeZone} error={fieldMessage(problem, "timeZone")} onChange={setTimeZone} />
      <Choice
        legend="Scheme"
        options={SCHEMES}
        value={scheme}
        onChange={setScheme}
        error={asked && !scheme ? "Choose the scheme whose limits and colours hold here." : null}
      />
      <Choice
        legend="Pressure unit"
        options={UNITS}
        value={unit}
        onChange={setUnit}
        error={asked && !unit ? "Choose the unit on your gauges." : null}
      />
      <ProblemNotice problem={problem} />
      {added ? (
        <Notice tone="done" title={`${added} is added`} announce="status">
          <p>
            <Said>Switch to it from the head of the page, then set up its rooms or import its department.</Said>
          </p>
        </Notice>
      ) : null}
      <FormActions>
        <Button type="submit" look="primary" busy={busy}>
          Add facility
        </Button>
      </FormActions>
    </Form>
  );
}
