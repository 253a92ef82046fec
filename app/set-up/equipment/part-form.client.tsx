"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { useSession } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { SelectField, TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Saved } from "@/app/set-up/saved.client";
import type { PlacesView } from "@/lib/schemas/places";
import { PART_KINDS, type PartKind, partFields } from "./part-fields";

type Workstation = PlacesView["workstations"][number];

/** One part from its label, fitted to this workstation. What it shares with the one before it stays typed. */
export function PartForm({
  view,
  workstation,
  onAdded,
}: {
  view: PlacesView;
  workstation: Workstation;
  onAdded: () => void;
}) {
  const facility = useSession()?.facility;
  const { send, busy, problem, reset } = useCommand("add-part");
  const [kind, setKind] = useState<PartKind>("cylinder");
  const fields = partFields(kind, facility?.scheme ?? "US", facility?.pressureUnit ?? "psi");
  const [typed, setTyped] = useState<Record<string, string>>({});
  // Null until somebody chooses another place than the first free one.
  const [position, setPosition] = useState<string | null>(null);
  const [added, setAdded] = useState<string | null>(null);
  const model = view.models.find(({ id }) => id === workstation.modelId);
  const places = placesOf(kind, model);
  const taken = workstation.parts.flatMap((part) => (part.kind === kind ? [part.position] : []));
  const firstFree = places?.find((place) => !taken.includes(place)) ?? places?.[0] ?? "1";
  const where = position ?? firstFree;
  const typedAs = (header: string) => typed[header] ?? fields.find((field) => field.header === header)?.start ?? "";
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setAdded(null);
    const cells = Object.fromEntries(fields.map(({ header }) => [header, typedAs(header)]));
    const reply = await send({
      kind,
      workstationId: workstation.id,
      storeId: null,
      position: places === null ? null : where,
      cells,
    });
    if (!reply?.ok) return;
    setAdded(`${reply.value.name} is on ${workstation.tag}`);
    setTyped({ ...typed, [fields[0]?.header ?? ""]: "" });
    setPosition(null);
    onAdded();
  };
  return (
    <Form onSubmit={submit}>
      <SelectField
        label="Part"
        value={kind}
        onChange={(event) => {
          setKind(event.target.value as PartKind);
          setTyped({});
          setPosition(null);
          reset();
        }}
      >
        {PART_KINDS.map(({ kind: one, label }) => (
          <option key={one} value={one}>
            {label}
          </option>
        ))}
      </SelectField>
      {places === null ? null : places.length === 0 ? (
        <TextField
          label="Canister"
          value={where}
          error={fieldMessage(problem, "position")}
          onChange={(event) => setPosition(event.target.value)}
        />
      ) : (
        <SelectField
          label={kind === "cylinder" ? "Yoke" : "Mount"}
          value={where}
          error={fieldMessage(problem, "position")}
          onChange={(event) => setPosition(event.target.value)}
        >
          {places.map((place) => (
            <option key={place} value={place}>
              {place}
            </option>
          ))}
        </SelectField>
      )}
      {fields.map(({ header, label, hint, choices }) => {
        const shared = { label, hint, value: typedAs(header), error: fieldMessage(problem, `cells.${header}`) };
        const put = (value: string) => setTyped({ ...typed, [header]: value });
        return choices ? (
          <SelectField key={header} {...shared} onChange={(event) => put(event.target.value)}>
            {choices.map((choice) => (
              <option key={choice} value={choice}>
                {choice.replaceAll("-", " ")}
              </option>
            ))}
          </SelectField>
        ) : (
          <TextField key={header} {...shared} autoComplete="off" onChange={(event) => put(event.target.value)} />
        );
      })}
      <Saved problem={problem} busy={busy} saved={added} label="Add part" />
    </Form>
  );
}

/** Where on the workstation it can sit; null for a sensor, which has one place. */
function placesOf(kind: PartKind, model: PlacesView["models"][number] | undefined): readonly string[] | null {
  if (kind === "oxygen-sensor") return null;
  if (kind === "cylinder") return model?.yokes.map(({ position }) => position) ?? [];
  return kind === "vaporizer" ? (model?.mounts ?? []) : [];
}
