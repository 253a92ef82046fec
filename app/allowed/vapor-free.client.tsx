"use client";

import { useState } from "react";
import { whenText } from "@/app/_parts/format";
import { MarkedWord } from "@/app/_parts/readiness-mark";
import { useMayDo } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import type { AllowancesView, VaporFreeView } from "@/lib/schemas/allowances";
import styles from "./allowed.module.css";
import { PrepareForm } from "./prepare-form.client";
import { RequestForm } from "./request-form.client";

interface VaporFreeProps {
  view: AllowancesView;
  zone: string;
  onChanged: () => void;
}

/** From the request to the case: who asked for what time, and whether the workstation is prepared. */
export function VaporFree({ view, zone, onChanged }: VaporFreeProps) {
  const mayAsk = useMayDo("request-vapor-free");
  const [asking, setAsking] = useState(false);
  const done = () => {
    setAsking(false);
    onChanged();
  };
  return (
    <>
      {view.vaporFree.length === 0 ? <p>Nobody has asked for one.</p> : null}
      <ul className={styles.list}>
        {view.vaporFree.map((one) => (
          <VaporFreeLine key={one.requestId ?? one.room.id} one={one} now={view.at} zone={zone} onChanged={onChanged} />
        ))}
      </ul>
      {mayAsk ? (
        <div className={styles.buttons}>
          <Button onClick={() => setAsking(true)}>Ask for a vapor-free workstation</Button>
        </div>
      ) : null}
      <Dialog open={asking} title="Ask for a vapor-free workstation" onClose={() => setAsking(false)}>
        <RequestForm rooms={view.rooms} now={view.at} zone={zone} onAsked={done} />
      </Dialog>
    </>
  );
}

interface LineProps {
  one: VaporFreeView;
  now: string;
  zone: string;
  onChanged: () => void;
}

function VaporFreeLine({ one, now, zone, onChanged }: LineProps) {
  const mayPrepare = useMayDo("prepare-vapor-free");
  const mayWithdraw = useMayDo("withdraw-vapor-free");
  const withdraw = useCommand("withdraw-vapor-free");
  const [preparing, setPreparing] = useState(false);
  const { requestId, workstation } = one;
  const isPrepared = one.standing === "prepared";
  const takeBack = async () => {
    if (requestId === null) return;
    const reply = await withdraw.send({ requestId, roomId: one.room.id });
    if (reply?.ok) onChanged();
  };
  return (
    <li className={styles.limit}>
      <div className={styles.head}>
        <span className={styles.name}>{one.room.name}</span>
        <MarkedWord shape={isPrepared ? "seated" : "open-pins"} tone={isPrepared ? "go" : "due"} size={22}>
          {isPrepared ? "Prepared" : "To prepare"}
        </MarkedWord>
        <span>{one.neededAt ? `for ${whenText(one.neededAt, now, zone)}` : "for this list"}</span>
      </div>
      <p>{one.why}</p>
      <p className={styles.soft}>{termsOf(one)}</p>
      <div className={styles.buttons}>
        {workstation && mayPrepare && !isPrepared ? (
          <Button onClick={() => setPreparing(true)}>Record the preparation of {workstation.tag}</Button>
        ) : null}
        {requestId && mayWithdraw ? (
          <Button look="quiet" busy={withdraw.busy} onClick={takeBack}>
            Withdraw the request for {one.room.name}
          </Button>
        ) : null}
      </div>
      {workstation ? (
        <Dialog open={preparing} title={`Prepared vapor-free: ${workstation.tag}`} onClose={() => setPreparing(false)}>
          <PrepareForm
            one={one}
            workstationId={workstation.id}
            now={now}
            zone={zone}
            onPrepared={() => {
              setPreparing(false);
              onChanged();
            }}
          />
        </Dialog>
      ) : null}
    </li>
  );
}

function termsOf({ flushMinutes, filterMinutes, by, note, workstation }: VaporFreeView): string {
  const flush = flushMinutes === null ? "the maker gives no flush time" : `flush ${flushMinutes} min`;
  const filters = filterMinutes === null ? "" : `, or ${filterMinutes} min with filters`;
  return [
    workstation ? `${workstation.tag}: ${flush}${filters}` : "",
    by ? `asked for by ${by}` : "in the list's needs",
    note ?? "",
  ]
    .filter((part) => part !== "")
    .join(" · ");
}
