"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { Said } from "@/app/_parts/said.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { SelectField, TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { dateIn, instantAt, instantOf, localDate, localTime, timestampOf } from "@/lib/units/time";

interface RequestFormProps {
  rooms: readonly { readonly id: string; readonly name: string }[];
  now: string;
  zone: string;
  onAsked: () => void;
}

export function RequestForm({ rooms, now, zone, onAsked }: RequestFormProps) {
  const ask = useCommand("request-vapor-free");
  const [roomId, setRoomId] = useState(rooms[0]?.id ?? "");
  const [day, setDay] = useState<string>(dateIn(zone, instantOf(now)));
  const [time, setTime] = useState("");
  const [note, setNote] = useState("");
  const [missing, setMissing] = useState(false);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const whole = day !== "" && time !== "";
    setMissing(!whole);
    if (!whole) return;
    const neededAt = timestampOf(instantAt(zone, localDate(day), localTime(time)));
    const reply = await ask.send({ roomId, neededAt, ...(note.trim() === "" ? {} : { note: note.trim() }) });
    if (reply?.ok) onAsked();
  };
  const timeError = missing ? "Give the day and the time the case begins." : fieldMessage(ask.problem, "neededAt");
  return (
    <Form onSubmit={submit}>
      <SelectField label={<Said>Room</Said>} value={roomId} onChange={(event) => setRoomId(event.target.value)}>
        {rooms.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </SelectField>
      <TextField label="Day" type="date" value={day} onChange={(event) => setDay(event.target.value)} />
      <TextField
        label="Case begins"
        type="time"
        value={time}
        error={timeError}
        onChange={(event) => setTime(event.target.value)}
      />
      <TextField
        label="Note, if any"
        hint="No patient's name or number."
        maxLength={300}
        value={note}
        onChange={(event) => setNote(event.target.value)}
      />
      <Button type="submit" look="primary" size="large" busy={ask.busy}>
        Ask for it
      </Button>
      {timeError ? null : <ProblemNotice problem={ask.problem} />}
    </Form>
  );
}
