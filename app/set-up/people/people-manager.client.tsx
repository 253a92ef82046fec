"use client";

import { useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { viewOrThrow } from "@/app/_parts/api.client";
import { countText } from "@/app/_parts/format";
import { useMayDo, useSession } from "@/app/_parts/session.client";
import { ROLE_WORDS } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { DataTable } from "@/app/_ui/data-table";
import { Dialog } from "@/app/_ui/dialog.client";
import { PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import styles from "@/app/set-up/set-up.module.css";
import type { PeopleView } from "@/lib/schemas/set-up";
import { AddPersonForm } from "./add-person-form.client";
import { ChangePersonForm } from "./change-person-form.client";

type Person = PeopleView["people"][number];

/** The people of the facility. Somebody who has left is made inactive and stays in the history under their name. */
export function PeopleManager({ initial }: { initial: PeopleView }) {
  const facilityId = useSession()?.facility.id;
  const mayAdd = useMayDo("add-person");
  const mayChange = useMayDo("change-roles");
  const [changing, setChanging] = useState<Person | null>(null);
  const { data, refetch } = useQuery({
    queryKey: ["people", facilityId],
    queryFn: () => viewOrThrow<PeopleView>("/api/v1/people"),
    initialData: initial,
  });
  const active = data.people.filter((person) => person.active).length;
  return (
    <>
      <PageHeading
        title="People"
        sub={`${countText(active, "person", "people")} may sign in. A user id is never given to somebody else.`}
      />
      <div className={styles.columns}>
        <DataTable name="People and their roles">
          <thead>
            <tr>
              <th scope="col">Name</th>
              <th scope="col">User id</th>
              <th scope="col">Roles</th>
              <th scope="col">
                <span>Change</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {data.people.map((person) => (
              <PersonRow key={person.id} person={person} onChange={mayChange ? () => setChanging(person) : null} />
            ))}
          </tbody>
        </DataTable>
        {mayAdd ? (
          <Panel title="Add a person">
            <AddPersonForm onAdded={() => refetch()} />
          </Panel>
        ) : null}
      </div>
      <Dialog open={changing !== null} title={changing?.name ?? ""} onClose={() => setChanging(null)}>
        {changing ? (
          <ChangePersonForm
            person={changing}
            onChanged={() => {
              setChanging(null);
              refetch();
            }}
          />
        ) : null}
      </Dialog>
    </>
  );
}

function PersonRow({ person, onChange }: { person: Person; onChange: (() => void) | null }) {
  return (
    <tr>
      <th scope="row">
        {person.name}
        {person.active ? null : <span className={styles.soft}> · inactive</span>}
      </th>
      <td>{person.userId}</td>
      <td>{person.roles.map((role) => ROLE_WORDS[role]).join(", ") || "none here"}</td>
      <td>
        {onChange ? (
          <Button onClick={onChange} aria-label={`Change ${person.name}`}>
            Change
          </Button>
        ) : null}
      </td>
    </tr>
  );
}
