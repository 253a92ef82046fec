"use client";

import { useState } from "react";
import { countText } from "@/app/_parts/format";
import { useMayDo } from "@/app/_parts/session.client";
import { ROLE_WORDS } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { Panel } from "@/app/_ui/panel";
import { Entries, Entry } from "@/app/set-up/entries";
import { Manager } from "@/app/set-up/manager.client";
import { useView } from "@/app/set-up/use-view.client";
import type { PeopleView } from "@/lib/schemas/set-up";
import { AddPersonForm } from "./add-person-form.client";
import { ChangePersonForm } from "./change-person-form.client";

type Person = PeopleView["people"][number];
type Open = { what: "add" } | { what: "person"; person: Person };

/** Where people stand in the list; whoever has left stays in it, because the history names them. */
const GROUPS: readonly { title: string; holds: (person: Person) => boolean }[] = [
  { title: "Here", holds: ({ active, roles }) => active && roles.length > 0 },
  { title: "No role here", holds: ({ active, roles }) => active && roles.length === 0 },
  { title: "Have left", holds: ({ active }) => !active },
];

/** The people of the facility: roles, first passwords, and whoever has left. */
export function PeopleManager({ initial }: { initial: PeopleView }) {
  const mayAdd = useMayDo("add-person");
  const mayChange = useMayDo("change-roles");
  const [open, setOpen] = useState<Open | null>(null);
  const { view, again } = useView("/api/v1/people", initial);
  const active = view.people.filter((person) => person.active).length;
  const changed = () => {
    setOpen(null);
    again();
  };
  return (
    <Manager
      title="People"
      sub={`${countText(active, "person", "people")} may sign in. A user id is never given to somebody else.`}
      actions={
        mayAdd ? (
          <Button look="primary" onClick={() => setOpen({ what: "add" })}>
            Add a person
          </Button>
        ) : null
      }
      form={
        open &&
        (open.what === "add"
          ? { title: "Add a person", body: <AddPersonForm onAdded={again} /> }
          : { title: open.person.name, body: <ChangePersonForm person={open.person} onChanged={changed} /> })
      }
      onClose={() => setOpen(null)}
    >
      {GROUPS.map(({ title, holds }) => {
        const people = view.people.filter(holds);
        if (people.length === 0) return null;
        return (
          <Panel key={title} title={title} aside={countText(people.length, "person", "people")}>
            <Entries name={`People: ${title.toLowerCase()}`}>
              {people.map((person) => (
                <Entry
                  key={person.id}
                  name={person.name}
                  facts={[person.userId, person.roles.map((role) => ROLE_WORDS[role]).join(", ")]}
                >
                  {mayChange ? (
                    <Button onClick={() => setOpen({ what: "person", person })} aria-label={`Change ${person.name}`}>
                      {person.active ? "Change" : "Bring back"}
                    </Button>
                  ) : null}
                </Entry>
              ))}
            </Entries>
          </Panel>
        );
      })}
    </Manager>
  );
}
