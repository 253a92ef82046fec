"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import type { Commands } from "@/app/_parts/command-types";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { GAS_WORDS } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { Checkbox, Choice } from "@/app/_ui/choice";
import { SelectField, TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import type { Gas } from "@/lib/domain/vocabulary";
import type { EventsView } from "@/lib/schemas/events";
import type { PressureUnit } from "@/lib/units/pressure";
import { typedNumber } from "./typed-number";

type Input = Commands["raise-event"]["input"];
type Kind = Input["kind"];

const KINDS: readonly { value: Kind; label: string }[] = [
  { value: "pipeline-low", label: "Pipeline low" },
  { value: "pipeline-high", label: "Pipeline high" },
  { value: "pipeline-restored", label: "Pipeline restored" },
  { value: "power", label: "Power failed" },
  { value: "recall", label: "Recall" },
];

interface RaiseFormProps {
  view: EventsView;
  unit: PressureUnit;
}

/** Two taps where it presses: what, and where. Everything else may stay empty. */
export function RaiseForm({ view, unit }: RaiseFormProps) {
  const router = useRouter();
  const raise = useCommand("raise-event");
  const [kind, setKind] = useState<Kind>("pipeline-low");
  const [zoneId, setZoneId] = useState(view.zones[0]?.id ?? "");
  const [modelId, setModelId] = useState(view.models[0]?.id ?? "");
  const [gas, setGas] = useState<Gas>("oxygen");
  const [reading, setReading] = useState("");
  const [note, setNote] = useState("");
  const [drill, setDrill] = useState(false);
  const [wrong, setWrong] = useState<string | null>(null);
  const isPipeline = kind.startsWith("pipeline-");
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const value = reading.trim() === "" ? null : typedNumber(reading);
    setWrong(value !== null && Number.isNaN(value) ? `“${reading}” is no number: type one such as 43.` : null);
    if (value !== null && Number.isNaN(value)) return;
    const where = kind === "recall" ? { modelId } : { zoneId };
    const what = isPipeline ? { gas, ...(value === null ? {} : { reading: { value, unit } }) } : {};
    const said = note.trim() === "" ? {} : { note: note.trim() };
    const reply = await raise.send({ kind, drill, ...where, ...what, ...said });
    if (reply?.ok) router.push(`/events/${reply.value.eventId}`);
  };
  const readingError = wrong ?? fieldMessage(raise.problem, "reading");
  return (
    <Form onSubmit={submit}>
      <Choice legend="What" options={KINDS} value={kind} onChange={setKind} />
      {kind === "recall" ? (
        <SelectField label="Model" value={modelId} onChange={(event) => setModelId(event.target.value)}>
          {view.models.map(({ id, name, workstations }) => (
            <option key={id} value={id}>{`${name}, ${workstations} here`}</option>
          ))}
        </SelectField>
      ) : (
        <SelectField label="Zone" value={zoneId} onChange={(event) => setZoneId(event.target.value)}>
          {view.zones.map(({ id, name, rooms }) => (
            <option key={id} value={id}>{`${name}, ${rooms} rooms`}</option>
          ))}
        </SelectField>
      )}
      {isPipeline ? (
        <>
          <Choice
            legend="Gas"
            options={(["oxygen", "air", "nitrous-oxide"] as const).map((value) => ({ value, label: GAS_WORDS[value] }))}
            value={gas}
            onChange={setGas}
          />
          <TextField
            label={`Pressure in ${unit}, where somebody read it`}
            inputMode="decimal"
            autoComplete="off"
            value={reading}
            error={readingError}
            onChange={(event) => setReading(event.target.value)}
          />
        </>
      ) : null}
      <TextField label="Note, if any" maxLength={300} value={note} onChange={(event) => setNote(event.target.value)} />
      <Checkbox
        label="This is a drill: nothing goes out of use"
        checked={drill}
        onChange={(event) => setDrill(event.target.checked)}
      />
      <Button type="submit" look={drill ? "primary" : "stop"} size="large" busy={raise.busy}>
        {drill ? "Begin the drill" : "Tell everybody"}
      </Button>
      {readingError ? null : <ProblemNotice problem={raise.problem} />}
    </Form>
  );
}
