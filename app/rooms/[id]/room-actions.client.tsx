"use client";

import { useState } from "react";
import { useMayDo } from "@/app/_parts/session.client";
import { Button } from "@/app/_ui/button.client";
import { LinkButton } from "@/app/_ui/link-button";
import { Panel } from "@/app/_ui/panel";
import type { RoomView } from "@/lib/schemas/room";
import { EmergencyDialog } from "./emergency-dialog.client";
import { ReportFaultDialog } from "./fault-dialogs.client";
import { HoldDialog, LiftDialog } from "./hold-dialogs.client";
import { CaseButtons, DayButtons } from "./occupancy-buttons.client";
import { mayStart } from "./provider-confirm.client";
import styles from "./room.module.css";
import { SwapLater } from "./swap/swap-buttons.client";

interface ActionsProps {
  view: RoomView;
  onSwap: () => void;
  onChanged: () => void;
}

type Opened =
  | { readonly what: "hold" | "report" | "emergency" }
  | { readonly what: "lift"; readonly hold: RoomView["holds"][number] };

/** What may be done with the room itself, for who may do it; what is seldom done, or should be done seldom, under "more". */
export function RoomActions({ view, onSwap, onChanged }: ActionsProps) {
  const [opened, setOpened] = useState<Opened | null>(null);
  const close = () => setOpened(null);
  const { workstation } = view.row;
  return (
    <Panel title="This room">
      <div className={styles.buttons}>
        <CaseButtons view={view} onChanged={onChanged} />
        <WorkstationButtons view={view} onOpen={setOpened} />
      </div>
      <details className={styles.more}>
        <summary>More</summary>
        <div className={styles.buttons}>
          <SwapLater view={view} onSwap={onSwap} />
          <DayButtons view={view} onChanged={onChanged} />
          <EmergencyButton view={view} onOpen={setOpened} />
          <LinkButton href={`/history?room=${view.row.roomId}`} look="quiet">
            History of {view.row.name}
          </LinkButton>
        </div>
      </details>
      <EmergencyDialog open={opened?.what === "emergency"} view={view} onClose={close} onChanged={onChanged} />
      {workstation ? (
        <>
          <HoldDialog open={opened?.what === "hold"} workstation={workstation} onClose={close} onChanged={onChanged} />
          <ReportFaultDialog
            open={opened?.what === "report"}
            workstation={workstation}
            onClose={close}
            onChanged={onChanged}
          />
          <LiftDialog
            hold={opened?.what === "lift" ? opened.hold : null}
            workstation={workstation}
            onClose={close}
            onChanged={onChanged}
          />
        </>
      ) : null}
    </Panel>
  );
}

interface OpenerProps {
  view: RoomView;
  onOpen: (opened: Opened) => void;
}

function WorkstationButtons({ view, onOpen }: OpenerProps) {
  const mayHold = useMayDo("hold-workstation");
  const mayLift = useMayDo("lift-hold");
  const mayReport = useMayDo("report-fault");
  if (!view.row.workstation) return null;
  return (
    <>
      {mayReport ? <Button onClick={() => onOpen({ what: "report" })}>Report a fault</Button> : null}
      {mayHold ? (
        <Button look="stop" onClick={() => onOpen({ what: "hold" })}>
          Hold: do not use
        </Button>
      ) : null}
      {mayLift
        ? view.holds.map((hold) => (
            <Button key={hold.id} onClick={() => onOpen({ what: "lift", hold })}>
              Lift the hold of {hold.name}
            </Button>
          ))
        : null}
    </>
  );
}

/** Only where a case cannot be started as usual. */
function EmergencyButton({ view, onOpen }: OpenerProps) {
  const may = useMayDo("use-in-emergency");
  if (!may || view.row.occupancy.state !== "idle" || mayStart(view)) return null;
  return (
    <Button look="stop" onClick={() => onOpen({ what: "emergency" })}>
      Use in an emergency
    </Button>
  );
}
