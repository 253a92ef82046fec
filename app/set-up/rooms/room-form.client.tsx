"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { useMayDo } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Saved } from "@/app/set-up/saved.client";
import type { PlacesView } from "@/lib/schemas/places";
import { SupplyFields, sentSupplies, suppliesOf } from "./supply-fields.client";

/** A room that is there: changed, retired, or brought back. */
export function RoomForm({
  view,
  room,
  onSaved,
}: {
  view: PlacesView;
  room: PlacesView["rooms"][number];
  onSaved: () => void;
}) {
  const { send, busy, problem } = useCommand("set-room");
  const retire = useCommand("retire-room");
  const mayRetire = useMayDo("retire-room");
  const [name, setName] = useState(room.name);
  const [typed, setTyped] = useState(() => suppliesOf(view, room));
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if ((await send({ ...sentSupplies(typed), name, roomId: room.id }))?.ok) onSaved();
  };
  const retireIt = async () => {
    if ((await retire.send({ roomId: room.id }))?.ok) onSaved();
  };
  const error = (field: string) => fieldMessage(problem, field);
  return (
    <Form onSubmit={submit}>
      <TextField
        label="Name"
        hint="As it stands on its door"
        autoComplete="off"
        value={name}
        error={error("name")}
        onChange={(event) => setName(event.target.value)}
      />
      <SupplyFields view={view} typed={typed} put={(part) => setTyped({ ...typed, ...part })} error={error} />
      <Saved problem={problem ?? retire.problem} busy={busy} saved={null} label={room.retired ? "Bring back" : "Save"}>
        {!room.retired && mayRetire ? (
          <Button look="stop" busy={retire.busy} onClick={retireIt}>
            Retire {room.name}
          </Button>
        ) : null}
      </Saved>
    </Form>
  );
}
