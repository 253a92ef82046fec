"use client";

import { useState } from "react";
import { whenText } from "@/app/_parts/format";
import { Mark } from "@/app/_parts/readiness-mark";
import { useMayDo } from "@/app/_parts/session.client";
import { Button } from "@/app/_ui/button.client";
import { Panel } from "@/app/_ui/panel";
import type { RoomView } from "@/lib/schemas/room";
import type { Timestamp } from "@/lib/units/time";
import { LookAtFaultDialog } from "./fault-dialogs.client";
import styles from "./room.module.css";

interface FaultsProps {
  view: RoomView;
  now: Timestamp;
  onChanged: () => void;
}

/** What people reported about this workstation and nobody has looked at yet. */
export function Faults({ view, now, onChanged }: FaultsProps) {
  const mayLook = useMayDo("look-at-fault");
  const [looking, setLooking] = useState<RoomView["faults"][number] | null>(null);
  const { workstation } = view.row;
  if (!workstation || view.faults.length === 0) return null;
  return (
    <Panel title="Reported, not looked at">
      <ul className={styles.tasks}>
        {view.faults.map((fault) => (
          <li key={fault.id} className={styles.task}>
            <p>“{fault.text}”</p>
            {fault.wouldNotUse ? (
              <p className={styles.wouldNotUse}>
                <Mark shape="barred" size={20} /> would not use it
              </p>
            ) : null}
            <p className={styles.soft}>
              {fault.name}, {whenText(fault.at, now, view.facility.timeZone)}
            </p>
            {mayLook ? (
              <div className={styles.buttons}>
                <Button onClick={() => setLooking(fault)}>Looked at it …</Button>
              </div>
            ) : null}
          </li>
        ))}
      </ul>
      <LookAtFaultDialog
        fault={looking}
        workstation={workstation}
        onClose={() => setLooking(null)}
        onChanged={onChanged}
      />
    </Panel>
  );
}
