"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Saved } from "@/app/set-up/saved.client";
import type { Role } from "@/lib/domain/vocabulary";
import { RoleBoxes } from "./role-boxes.client";

const EMPTY: { userId: string; name: string; password: string; roles: Role[] } = {
  userId: "",
  name: "",
  password: "",
  roles: [],
};

/** A new person with a first password, which they change under Password. The form stays open for the next one. */
export function AddPersonForm({ onAdded }: { onAdded: () => void }) {
  const { send, busy, problem } = useCommand("add-person");
  const [fields, setFields] = useState(EMPTY);
  const [added, setAdded] = useState<string | null>(null);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setAdded(null);
    const reply = await send(fields);
    if (!reply?.ok) return;
    setAdded(fields.name);
    setFields(EMPTY);
    onAdded();
  };
  return (
    <Form onSubmit={submit}>
      <TextField
        label="Name"
        autoComplete="off"
        value={fields.name}
        error={fieldMessage(problem, "name")}
        onChange={(event) => setFields({ ...fields, name: event.target.value })}
      />
      <TextField
        label="User id"
        hint="Letters, digits, dots or hyphens"
        autoComplete="off"
        autoCapitalize="none"
        spellCheck={false}
        value={fields.userId}
        error={fieldMessage(problem, "userId")}
        onChange={(event) => setFields({ ...fields, userId: event.target.value })}
      />
      <TextField
        label="First password"
        hint="At least 12 characters"
        type="password"
        autoComplete="new-password"
        value={fields.password}
        error={fieldMessage(problem, "password")}
        onChange={(event) => setFields({ ...fields, password: event.target.value })}
      />
      <RoleBoxes
        roles={fields.roles}
        onRoles={(roles) => setFields({ ...fields, roles })}
        error={fieldMessage(problem, "roles")}
      />
      <Saved problem={problem} busy={busy} saved={added ? `${added} is added` : null} label="Add person" />
    </Form>
  );
}
