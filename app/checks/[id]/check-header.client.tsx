"use client";

import Link from "next/link";
import { useState } from "react";
import { countText } from "@/app/_parts/format";
import { Said } from "@/app/_parts/said.client";
import { CHECK_KIND_WORDS } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import styles from "./check-header.module.css";
import { type CheckState, progressOf } from "./check-state";
import { ItemRail } from "./item-rail.client";
import { ProcedureLine } from "./procedure-line";
import type { Sending } from "./use-sender.client";
import { WrongWorkstation } from "./wrong-workstation.client";

export interface CheckHeaderProps {
  readonly state: CheckState;
  readonly current: string | null;
  readonly sending: Sending;
  readonly keeps: boolean;
  readonly onGo: (key: string) => void;
  readonly onHurry: () => void;
}

/** Where and what this check is, how far it is, and whether anything still waits on this device. */
export function CheckHeader({ state, current, sending, keeps, onGo, onHurry }: CheckHeaderProps) {
  const [listed, setListed] = useState(false);
  const { answered, total, waiting } = progressOf(state);
  const { room, workstation, kind } = state.view;
  const place = room?.name ?? workstation.tag;
  return (
    <header className={styles.header}>
      <div className={styles.line}>
        <h1 className={styles.place}>
          {room ? <Link href={`/rooms/${room.id}`}>{place}</Link> : place}{" "}
          <span className={styles.kind}>
            <Said>{CHECK_KIND_WORDS[kind]}</Said>
          </span>
        </h1>
        <span className={styles.station}>
          {workstation.tag}
          <span className={styles.model}> · {workstation.model}</span>
        </span>
        <span className={styles.wrong}>
          <WrongWorkstation view={state.view} />
        </span>
        <span className={styles.count}>
          {answered} of {total}
        </span>
        <span className={styles.list}>
          <Button onClick={() => setListed(true)}>All items</Button>
        </span>
      </div>
      <ProgressBar share={total === 0 ? 0 : answered / total} />
      <SendingLine sending={sending} waiting={waiting} keeps={keeps} onHurry={onHurry} />
      <Dialog open={listed} title={`${place}: ${answered} of ${total} answered`} onClose={() => setListed(false)}>
        <ProcedureLine check={state.view} />
        <ItemRail
          state={state}
          current={current}
          onGo={(key) => {
            setListed(false);
            onGo(key);
          }}
        />
        <WrongWorkstation view={state.view} />
      </Dialog>
    </header>
  );
}

function ProgressBar({ share }: { share: number }) {
  return (
    <svg className={styles.bar} viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
      <rect className={styles.barGround} width="100" height="6" />
      <rect className={styles.barDone} width={share * 100} height="6" />
    </svg>
  );
}

function SendingLine({
  sending,
  waiting,
  keeps,
  onHurry,
}: {
  sending: Sending;
  waiting: number;
  keeps: boolean;
  onHurry: () => void;
}) {
  const kept = keeps
    ? `kept on this device (${countText(waiting, "answer")})`
    : "not kept by this browser: leave the page open";
  return (
    <p className={styles.sending} role="status">
      {sending === "no-signal" ? (
        <>
          <strong>No connection.</strong> {kept}.{" "}
          <Button look="quiet" onClick={onHurry}>
            Try now
          </Button>
        </>
      ) : null}
      {sending === "sign-in" ? (
        <>
          <strong>Signed out.</strong> {kept}.{" "}
          <Button look="quiet" onClick={onHurry}>
            Sign in and send
          </Button>
        </>
      ) : null}
    </p>
  );
}
