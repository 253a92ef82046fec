"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { useSay } from "@/app/_parts/say.client";
import { useMayDo } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { SelectField, TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Saved } from "@/app/set-up/saved.client";
import type { PlacesView } from "@/lib/schemas/places";
import { nextTag } from "./next-tag";

type Workstation = PlacesView["workstations"][number];

/** The next empty room of the list, for the next workstation of the row. */
function nextPlace({ rooms }: PlacesView, roomId: string): string {
  const at = rooms.findIndex(({ id }) => id === roomId);
  const next = rooms.slice(at + 1).find(({ retired, workstation }) => !retired && workstation === null);
  return next ? `room:${next.id}` : "";
}

/**
 * Tag, serial number and model; a new one, or one that is brought back, also says where it stands. After a new one the form stays open for
 * the next.
 */
export function WorkstationForm({
  view,
  workstation,
  onSaved,
}: {
  view: PlacesView;
  workstation: Workstation | null;
  onSaved: () => void;
}) {
  const { send, busy, problem } = useCommand("set-workstation");
  const [tag, setTag] = useState(workstation?.tag ?? "");
  const [serial, setSerial] = useState(workstation?.serial ?? "");
  const [modelId, setModelId] = useState(workstation?.modelId ?? view.models[0]?.id ?? "");
  const [place, setPlace] = useState("");
  const [saved, setSaved] = useState<string | null>(null);
  const placed = workstation === null || workstation.retired;
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const [kind, id = ""] = place.split(":");
    const where = kind === "room" ? { roomId: id } : kind === "store" ? { storeId: id } : null;
    setSaved(null);
    const reply = await send({ workstationId: workstation?.id ?? null, tag, serial, modelId, place: where });
    if (!reply?.ok) return;
    if (workstation === null) {
      setSaved(`${tag} is added`);
      setTag(nextTag(tag));
      setSerial("");
      setPlace(kind === "room" ? nextPlace(view, id) : place);
    }
    onSaved();
  };
  const error = (field: string) => fieldMessage(problem, field);
  return (
    <Form onSubmit={submit}>
      <TextField
        label="Tag"
        hint="The number on the workstation that people say and scan"
        autoComplete="off"
        value={tag}
        error={error("tag")}
        onChange={(event) => setTag(event.target.value)}
      />
      <TextField
        label="Serial number"
        hint="The maker's, from its label"
        autoComplete="off"
        value={serial}
        error={error("serial")}
        onChange={(event) => setSerial(event.target.value)}
      />
      <SelectField
        label="Model"
        value={modelId}
        error={error("modelId")}
        onChange={(event) => setModelId(event.target.value)}
      >
        {view.models.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </SelectField>
      {placed ? <PlaceField view={view} value={place} error={error("place")} onChange={setPlace} /> : null}
      <Saved
        problem={problem}
        busy={busy}
        saved={saved}
        label={workstation === null ? "Add workstation" : workstation.retired ? "Bring back" : "Save"}
      />
      {workstation && !workstation.retired ? (
        <RetireForm view={view} workstation={workstation} onSaved={onSaved} />
      ) : null}
    </Form>
  );
}

function PlaceField({
  view,
  value,
  error,
  onChange,
}: {
  view: PlacesView;
  value: string;
  error: string | null;
  onChange: (place: string) => void;
}) {
  const say = useSay();
  const empty = view.rooms.filter(({ retired, workstation }) => !retired && workstation === null);
  return (
    <SelectField
      label="Stands in"
      hint={say("An empty room, or a store for a spare")}
      value={value}
      error={error}
      onChange={(event) => onChange(event.target.value)}
    >
      <option value="">choose a place</option>
      <optgroup label={say("Rooms")}>
        {empty.map(({ id, name }) => (
          <option key={id} value={`room:${id}`}>
            {name}
          </option>
        ))}
      </optgroup>
      <optgroup label="Stores">
        {view.stores.map(({ id, name }) => (
          <option key={id} value={`store:${id}`}>
            {name}
          </option>
        ))}
      </optgroup>
    </SelectField>
  );
}

function RetireForm({
  view,
  workstation,
  onSaved,
}: {
  view: PlacesView;
  workstation: Workstation;
  onSaved: () => void;
}) {
  const { send, busy, problem } = useCommand("retire-workstation");
  const [partsTo, setPartsTo] = useState("");
  const carries = workstation.parts.length > 0;
  const retire = async () => {
    if ((await send({ workstationId: workstation.id, partsTo: partsTo || null }))?.ok) onSaved();
  };
  if (!useMayDo("retire-workstation")) return null;
  return (
    <>
      {carries ? (
        <SelectField
          label="To retire it: its parts go to"
          value={partsTo}
          error={fieldMessage(problem, "partsTo") ?? fieldMessage(problem, "workstationId")}
          onChange={(event) => setPartsTo(event.target.value)}
        >
          <option value="">choose a store</option>
          {view.stores.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </SelectField>
      ) : null}
      <Button look="stop" busy={busy} onClick={retire}>
        Retire {workstation.tag}
      </Button>
    </>
  );
}
