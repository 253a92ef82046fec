"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useMayDo, useSession } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import { Saved } from "@/app/set-up/saved.client";
import styles from "@/app/set-up/set-up.module.css";
import type { PeopleView } from "@/lib/schemas/set-up";
import { RoleBoxes } from "./role-boxes.client";

type Person = PeopleView["people"][number];

/** Roles, a new first password, and the end of somebody's time here. Each holds from the next request on. */
export function ChangePersonForm({ person, onChanged }: { person: Person; onChanged: () => void }) {
  const me = useSession()?.person.id === person.id;
  const mayGive = useMayDo("give-password");
  if (!person.active) return <BringBack person={person} onChanged={onChanged} />;
  return (
    <div className={styles.stack}>
      <RolesForm person={person} me={me} onChanged={onChanged} />
      {me || !mayGive ? null : <PasswordForm person={person} />}
      {me ? null : <Leaver person={person} onChanged={onChanged} />}
    </div>
  );
}

function RolesForm({ person, me, onChanged }: { person: Person; me: boolean; onChanged: () => void }) {
  const { send, busy, problem } = useCommand("change-roles");
  const [roles, setRoles] = useState(person.roles);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if ((await send({ personId: person.id, roles, active: true }))?.ok) onChanged();
  };
  return (
    <Form onSubmit={submit}>
      <RoleBoxes roles={roles} onRoles={setRoles} error={fieldMessage(problem, "roles")} />
      {me && !roles.includes("administrator") ? (
        <Notice tone="heed" title="This is you: you would take the set-up away from yourself." announce="status" />
      ) : null}
      <Saved problem={problem} busy={busy} saved={null} label="Save roles" />
    </Form>
  );
}

/** For who has forgotten it. It is told in person; their open sessions end, and they change it under Password. */
function PasswordForm({ person }: { person: Person }) {
  const { send, busy, problem } = useCommand("give-password");
  const [password, setPassword] = useState("");
  const [given, setGiven] = useState(false);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setGiven(false);
    if (!(await send({ personId: person.id, password }))?.ok) return;
    setGiven(true);
    setPassword("");
  };
  return (
    <Form onSubmit={submit}>
      <TextField
        label="New first password"
        hint="At least 12 characters. Tell it in person; they change it under Set-up, Password"
        type="password"
        autoComplete="new-password"
        value={password}
        error={fieldMessage(problem, "password")}
        onChange={(event) => setPassword(event.target.value)}
      />
      <Saved
        problem={problem}
        busy={busy}
        saved={given ? `${person.name} signs in with the new password from now on` : null}
        label="Give this password"
      />
    </Form>
  );
}

function Leaver({ person, onChanged }: { person: Person; onChanged: () => void }) {
  const { send, busy, problem } = useCommand("change-roles");
  const close = async () => {
    if ((await send({ personId: person.id, roles: [], active: false }))?.ok) onChanged();
  };
  return (
    <div className={styles.stack}>
      <p className={styles.soft}>
        Somebody who has left signs in no more, in any facility. The name stays in the history, and the user id is never
        given again.
      </p>
      <ProblemNotice problem={problem} />
      <div>
        <Button look="stop" busy={busy} onClick={close}>
          {person.name} has left
        </Button>
      </div>
    </div>
  );
}

function BringBack({ person, onChanged }: { person: Person; onChanged: () => void }) {
  const { send, busy, problem } = useCommand("change-roles");
  const [roles, setRoles] = useState(person.roles);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if ((await send({ personId: person.id, roles, active: true }))?.ok) onChanged();
  };
  return (
    <Form onSubmit={submit}>
      <p>{person.name} may not sign in now. The password stays the one it was; give a new one afterwards.</p>
      <RoleBoxes roles={roles} onRoles={setRoles} error={fieldMessage(problem, "roles")} />
      <Saved problem={problem} busy={busy} saved={null} label="Bring back" />
    </Form>
  );
}
