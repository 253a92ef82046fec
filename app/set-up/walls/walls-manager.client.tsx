"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { whenText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useSay } from "@/app/_parts/say.client";
import { useSession } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import { Panel } from "@/app/_ui/panel";
import { Entries, Entry } from "@/app/set-up/entries";
import { Manager } from "@/app/set-up/manager.client";
import { Saved } from "@/app/set-up/saved.client";
import styles from "@/app/set-up/set-up.module.css";
import { useView } from "@/app/set-up/use-view.client";
import type { DevicesView } from "@/lib/schemas/devices";
import { drawCode } from "./draw-code.client";

/** Registered screens, when each was last seen, and how one more gets its way in. */
export function WallsManager({ initial }: { initial: DevicesView }) {
  const say = useSay();
  const { view, again } = useView("/api/v1/set-up/devices", initial);
  const [adding, setAdding] = useState(false);
  return (
    <Manager
      title="Walls"
      sub={say("A registered screen shows the rooms, without names of staff, and can do nothing else.")}
      actions={
        <Button look="primary" onClick={() => setAdding(true)}>
          Register a screen
        </Button>
      }
      form={adding ? { title: "Register a screen", body: <RegisterForm onRegistered={again} /> } : null}
      onClose={() => setAdding(false)}
    >
      {view.devices.length === 0 ? (
        <Notice title="No screen is registered">
          <p>Register one, and open its link once in the browser of the screen.</p>
        </Notice>
      ) : (
        <Devices view={view} onChanged={again} />
      )}
    </Manager>
  );
}

function Devices({ view, onChanged }: { view: DevicesView; onChanged: () => void }) {
  const zone = useSession()?.facility.timeZone ?? "UTC";
  const { send, busy, problem } = useCommand("revoke-device");
  const revoke = async (deviceId: string) => {
    if ((await send({ deviceId }))?.ok) onChanged();
  };
  const when = (at: string | null) => (at === null ? "never" : whenText(at, view.at, zone));
  return (
    <Panel title="Registered screens">
      <ProblemNotice problem={problem} />
      <Entries name="Registered screens">
        {view.devices.map((device) => (
          <Entry
            key={device.id}
            name={device.name}
            note={device.revoked ? "revoked" : null}
            facts={[
              `last seen ${when(device.lastSeenAt)}`,
              `registered ${when(device.registeredAt)} by ${device.registeredBy}`,
              device.revoked && `revoked ${when(device.revokedAt)} by ${device.revokedBy}`,
            ]}
          >
            {device.revoked ? null : (
              <Button look="stop" busy={busy} onClick={() => revoke(device.id)} aria-label={`Revoke ${device.name}`}>
                Revoke
              </Button>
            )}
          </Entry>
        ))}
      </Entries>
    </Panel>
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
