"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { useSay } from "@/app/_parts/say.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { SelectField, TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { typedNumber, typedOrNull } from "@/app/set-up/number-text";
import { Saved } from "@/app/set-up/saved.client";
import type { PlacesView } from "@/lib/schemas/places";

export type PlaceKind = "suite" | "zone" | "store";
export interface PlaceKnown {
  id: string;
  name: string;
  suiteId?: string | null;
  walkingOrder?: number | null;
}

/** One suite, pipeline zone or store. */
export function PlaceForm({
  view,
  kind,
  place,
  onSaved,
}: {
  view: PlacesView;
  kind: PlaceKind;
  place: PlaceKnown | null;
  onSaved: () => void;
}) {
  const say = useSay();
  const { send, busy, problem } = useCommand("set-place");
  const [name, setName] = useState(place?.name ?? "");
  const [suiteId, setSuiteId] = useState(place?.suiteId ?? "");
  const next = Math.max(0, ...view.suites.map(({ walkingOrder }) => walkingOrder)) + 1;
  const [order, setOrder] = useState(String(place?.walkingOrder ?? (kind === "suite" ? next : "")));
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const placeId = place?.id ?? null;
    const reply = await send(
      kind === "suite"
        ? { kind, placeId, name, walkingOrder: typedNumber(order) }
        : kind === "zone"
          ? { kind, placeId, name }
          : { kind, placeId, name, suiteId: suiteId || null, walkingOrder: typedOrNull(order) },
    );
    if (reply?.ok) onSaved();
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
      {kind === "store" ? (
        <SelectField
          label={say("Suite it lies in")}
          hint="For the nearest spare"
          value={suiteId}
          error={fieldMessage(problem, "suiteId")}
          onChange={(event) => setSuiteId(event.target.value)}
        >
          <option value="">not said</option>
          {view.suites.map((suite) => (
            <option key={suite.id} value={suite.id}>
              {suite.name}
            </option>
          ))}
        </SelectField>
      ) : null}
      {kind === "zone" ? null : (
        <TextField
          label="Place on the walk"
          hint={
            kind === "suite" ? "Smaller numbers come first" : say("Among the rooms of its suite; may be left empty")
          }
          inputMode="numeric"
          value={order}
          error={fieldMessage(problem, "walkingOrder")}
          onChange={(event) => setOrder(event.target.value)}
        />
      )}
      <Saved problem={problem} busy={busy} saved={null} label={place === null ? "Add" : "Save"} />
    </Form>
  );
}
