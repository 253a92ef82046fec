"use client";

import { useState } from "react";
import { useSession } from "@/app/_parts/session.client";
import { Button } from "@/app/_ui/button.client";
import { saidAnswer } from "@/lib/domain/wording";
import type { Entry } from "./device-store.client";
import { outbox } from "./outbox.client";
import { sender } from "./sender.client";
import { useIsRead, useOutbox, useTrouble } from "./use-outbox.client";
import { sinceText } from "./waiting-line.client";
import styles from "./waiting-line.module.css";

const TROUBLE_WORDS = {
  "no-signal": "No connection. It is tried again by itself.",
  "sign-in": "Your session has ended. Sign in, and everything is sent.",
} as const;

/** Everything that waits on this device, with what can be done about it. */
export function WaitingList() {
  const entries = useOutbox();
  const trouble = useTrouble();
  const isRead = useIsRead();
  if (!isRead) return <p>Looking at what this device keeps …</p>;
  if (entries.length === 0) return <p>Nothing waits on this device. Everything has been sent.</p>;
  return (
    <>
      <p role="status">{trouble ? TROUBLE_WORDS[trouble] : "It is sent by itself, in this order, each answer once."}</p>
      <div className={styles.actions}>
        <Button look="primary" onClick={() => sender().hurry()}>
          Try now
        </Button>
      </div>
      <ul className={styles.list}>
        {entries.map((entry) => (
          <WaitingEntry key={entry.id} entry={entry} />
        ))}
      </ul>
    </>
  );
}

function WaitingEntry({ entry }: { entry: Entry }) {
  const session = useSession();
  const mine = session?.person.id === entry.kept.personId;
  const [first] = entry.answers;
  return (
    <li className={styles.entry}>
      <p>
        <strong>{entry.place}</strong>, {first?.title}: {first ? saidAnswer(first.answer) : ""}
      </p>
      <p>
        {entry.personName}, {sinceText(entry, session?.facility.timeZone ?? "UTC")}
      </p>
      {entry.refusal ? (
        <>
          <p role="alert">
            <strong>Refused:</strong> {entry.refusal}
          </p>
          <Refused entry={entry} />
        </>
      ) : null}
      {!mine && session ? <OfAnother entry={entry} /> : null}
    </li>
  );
}

function Refused({ entry }: { entry: Entry }) {
  const [asked, setAsked] = useState(false);
  return (
    <div className={styles.actions}>
      <Button onClick={() => sender().sendNow(entry)}>Send again</Button>
      {asked ? (
        <Button look="stop" onClick={() => outbox().remove(entry.id)}>
          Yes, remove it from this device
        </Button>
      ) : (
        <Button look="quiet" onClick={() => setAsked(true)}>
          Remove
        </Button>
      )}
    </div>
  );
}

/** Another person's answers wait for them, or go out as what they are: evidence, without a mark. */
function OfAnother({ entry }: { entry: Entry }) {
  return (
    <>
      <p>It waits until {entry.personName} signs in on this device.</p>
      <div className={styles.actions}>
        <Button onClick={() => sender().sendNow(entry)}>Send it now, unsigned</Button>
      </div>
    </>
  );
}
