"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { whenText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useSession } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { DataTable } from "@/app/_ui/data-table";
import { TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import { PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import { Saved } from "@/app/set-up/saved.client";
import styles from "@/app/set-up/set-up.module.css";
import { useView } from "@/app/set-up/use-view.client";
import type { DevicesView } from "@/lib/schemas/devices";
import { drawCode } from "./draw-code.client";

/** Registered screens, when each was last seen, and how one more gets its way in. */
export function WallsManager({ initial }: { initial: DevicesView }) {
  const { view, again } = useView("/api/v1/set-up/devices", initial);
  return (
    <>
      <PageHeading
        title="Walls"
        sub="A registered screen shows the rooms, without names of staff, and can do nothing else."
      />
      <div className={styles.columns}>
        {view.devices.length === 0 ? (
          <Notice title="No screen is registered">
            <p>Register one beside this, and open its link once in the browser of the screen.</p>
          </Notice>
        ) : (
          <DeviceTable view={view} onChanged={again} />
        )}
        <Panel title="Register a screen">
          <RegisterForm onRegistered={again} />
        </Panel>
      </div>
    </>
  );
}

function DeviceTable({ view, onChanged }: { view: DevicesView; onChanged: () => void }) {
  const zone = useSession()?.facility.timeZone ?? "UTC";
  const { send, busy, problem } = useCommand("revoke-device");
  const revoke = async (deviceId: string) => {
    if ((await send({ deviceId }))?.ok) onChanged();
  };
  const when = (at: string | null) => (at === null ? "never" : whenText(at, view.at, zone));
  return (
    <div className={styles.stack}>
      <ProblemNotice problem={problem} />
      <DataTable name="Registered screens">
        <thead>
          <tr>
            <th scope="col">Screen</th>
            <th scope="col">Registered</th>
            <th scope="col">Last seen</th>
            <th scope="col">
              <span>Revoke</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {view.devices.map((device) => (
            <tr key={device.id}>
              <th scope="row">{device.name}</th>
              <td>
                {when(device.registeredAt)} by {device.registeredBy}
              </td>
              <td>{when(device.lastSeenAt)}</td>
              <td>
                {device.revoked ? (
                  `revoked ${when(device.revokedAt)} by ${device.revokedBy}`
                ) : (
                  <Button
                    look="stop"
                    busy={busy}
                    onClick={() => revoke(device.id)}
                    aria-label={`Revoke ${device.name}`}
                  >
                    Revoke
                  </Button>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </DataTable>
    </div>
  );
}

/** The code is drawn in this browser and shown here once; the server keeps its hash alone. */
function RegisterForm({ onRegistered }: { onRegistered: () => void }) {
  const { send, busy, problem } = useCommand("register-device");
  const [name, setName] = useState("");
  const [registered, setRegistered] = useState<{ name: string; link: string } | null>(null);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setRegistered(null);
    const code = drawCode();
    if (!(await send({ name, code }))?.ok) return;
    setRegistered({ name, link: `${window.location.origin}/wall/enter/${code}` });
    setName("");
    onRegistered();
  };
  return (
    <Form onSubmit={submit}>
      <TextField
        label="Name"
        hint="Where it hangs, such as corridor, level 2"
        autoComplete="off"
        value={name}
        error={fieldMessage(problem, "name")}
        onChange={(event) => setName(event.target.value)}
      />
      {registered ? (
        <Notice tone="done" title={`${registered.name} is registered`} announce="status">
          <p>Open this link once in the browser of that screen. It is shown here only now.</p>
          <code className={styles.code}>{registered.link}</code>
        </Notice>
      ) : null}
      <Saved problem={problem} busy={busy} saved={null} label="Register" />
    </Form>
  );
}
