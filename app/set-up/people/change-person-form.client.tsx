"use client";

import { type FormEvent, useState } from "react";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useSession } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Checkbox } from "@/app/_ui/choice";
import { Form, FormActions } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import type { PeopleView } from "@/lib/schemas/set-up";
import { RoleBoxes } from "./role-boxes.client";

/** Roles and whether the person may sign in at all; it holds from the next request on. */
export function ChangePersonForm({
  person,
  onChanged,
}: {
  person: PeopleView["people"][number];
  onChanged: () => void;
}) {
  const me = useSession()?.person.id;
  const { send, busy, problem } = useCommand("change-roles");
  const [roles, setRoles] = useState(person.roles);
  const [active, setActive] = useState(person.active);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const reply = await send({ personId: person.id, roles, active });
    if (reply?.ok) onChanged();
  };
  return (
    <Form onSubmit={submit}>
      <RoleBoxes roles={roles} onRoles={setRoles} />
      <Checkbox label="May sign in" checked={active} onChange={(event) => setActive(event.target.checked)} />
      {person.id === me && (!active || !roles.includes("administrator")) ? (
        <Notice tone="heed" title="This is you: you would take the set-up away from yourself." announce="status" />
      ) : null}
      <ProblemNotice problem={problem} />
      <FormActions>
        <Button type="submit" look="primary" busy={busy}>
          Save
        </Button>
      </FormActions>
    </Form>
  );
}
