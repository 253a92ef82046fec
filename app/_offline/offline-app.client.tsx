"use client";

import { useEffect, useState } from "react";
import { Button } from "@/app/_ui/button.client";
import { Page } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import { CheckRunner } from "@/app/checks/[id]/check-runner.client";
import { Providers } from "@/app/providers.client";
import type { SessionView } from "@/lib/schemas/set-up";
import { beginCheck } from "./begin-check.client";
import { deviceStore, type KeptCheck } from "./device-store.client";
import { keptCheck, keptChecks } from "./kept-checks.client";
import { StartsList } from "./starts-list.client";
import { useReached } from "./use-reached.client";
import { WaitingLine } from "./waiting-line.client";
import styles from "./waiting-line.module.css";
import { WaitingList } from "./waiting-list.client";

/** The whole application of a device that reaches nothing: the checks it keeps, those it may begin, and what waits. */
export function OfflineApp() {
  const [session, setSession] = useState<SessionView | null | undefined>(undefined);
  useEffect(() => {
    deviceStore()
      .then((store) => store.get("known", "session"))
      .then((kept) => setSession(kept && "person" in kept ? kept : null))
      .catch(() => setSession(null));
  }, []);
  if (session === undefined) return null;
  if (session === null)
    return (
      <Page>
        <h1>No connection</h1>
        <p>Nobody has signed in on this device yet, so there is nothing to go on with. Try again near the network.</p>
        <p>
          <a href="/">Try again</a>
        </p>
      </Page>
    );
  return (
    <Providers session={session} offsets={null} cutOff>
      <Offline session={session} />
    </Providers>
  );
}

function Offline({ session }: { session: SessionView }) {
  const [open, setOpen] = useState<KeptCheck | null>(null);
  const [checks, setChecks] = useState<readonly KeptCheck[]>([]);
  const reached = useReached();
  const personId = session.person.id;
  useEffect(() => {
    keptChecks(personId).then(setChecks, () => setChecks([]));
    const wanted = /^\/checks\/([0-9a-f-]{36})$/.exec(new URLSearchParams(window.location.search).get("at") ?? "");
    if (wanted?.[1]) keptCheck(wanted[1], personId).then(setOpen, () => setOpen(null));
  }, [personId]);
  const back = open ? `/checks/${open.id}` : "/";
  return (
    <>
      <header className={styles.head}>
        <p role="status">
          <strong>{reached ? "The connection is back." : "No connection."}</strong>{" "}
          {reached ? <a href={back}>Go on and sign</a> : "What you answer is kept on this device, unsigned."}
        </p>
        <p>{session.person.name}</p>
      </header>
      <WaitingLine />
      <main id="main">
        {open ? (
          <CheckRunner key={open.id} check={open.view} began={open.began} />
        ) : (
          <Page>
            <h1>Without a connection</h1>
            {checks.length > 0 ? (
              <Panel title="Go on with a check">
                {checks.map((check) => (
                  <Button key={check.id} size="large" wide onClick={() => setOpen(check)}>
                    {check.view.room?.name ?? check.view.workstation.tag}
                  </Button>
                ))}
              </Panel>
            ) : null}
            <StartsList
              facilityId={session.facility.id}
              onStart={async (view) => setOpen(await beginCheck(view, session))}
            />
            <Panel title="Waiting on this device">
              <WaitingList />
            </Panel>
          </Page>
        )}
      </main>
    </>
  );
}
