"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { countText } from "@/app/_parts/format";
import { useSay } from "@/app/_parts/say.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Saved } from "@/app/set-up/saved.client";
import styles from "@/app/set-up/set-up.module.css";
import type { PlacesView } from "@/lib/schemas/places";
import { roomNames } from "./room-names";
import { SupplyFields, sentSupplies, suppliesOf } from "./supply-fields.client";

/** One room, or a corridor of them. The form stays open for the next corridor, further along the walk. */
export function AddRoomsForm({ view, onAdded }: { view: PlacesView; onAdded: () => void }) {
  const say = useSay();
  const { send, busy, problem } = useCommand("add-rooms");
  const [text, setText] = useState("");
  const [typed, setTyped] = useState(() => suppliesOf(view, null));
  const [saved, setSaved] = useState<string | null>(null);
  const names = roomNames(text);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setSaved(null);
    const supplies = sentSupplies(typed);
    if (!(await send({ ...supplies, names }))?.ok) return;
    setSaved(say`${countText(names.length, say("room"))} added: ${names.join(", ")}`);
    setText("");
    setTyped({ ...typed, walkingOrder: String(supplies.walkingOrder + names.length) });
    onAdded();
  };
  const error = (field: string) => fieldMessage(problem, field);
  return (
    <Form onSubmit={submit}>
      <TextField
        label="Names"
        hint="As they stand on the doors. A range such as OR 1 to OR 12, or several with commas"
        autoComplete="off"
        value={text}
        error={error("names") ?? error("names.0")}
        onChange={(event) => setText(event.target.value)}
      />
      {names.length > 1 ? (
        <p className={styles.soft}>
          {countText(names.length, say("room"))}: {names.join(", ")}
        </p>
      ) : null}
      <SupplyFields view={view} typed={typed} put={(part) => setTyped({ ...typed, ...part })} error={error} />
      <Saved
        problem={problem}
        busy={busy}
        saved={saved}
        label={names.length > 1 ? say`Add ${names.length} rooms` : say("Add room")}
      />
    </Form>
  );
}
