"use client";

import { useState } from "react";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useMayDo } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { LinkButton } from "@/app/_ui/link-button";
import { Panel } from "@/app/_ui/panel";
import type { RoomView } from "@/lib/schemas/room";
import { HoldDialog, LiftDialog } from "./hold-dialogs.client";
import { mayStart } from "./provider-confirm.client";
import styles from "./room.module.css";

interface ActionsProps {
  view: RoomView;
  onChanged: () => void;
}

/** What may be done with the room itself, for who may do it. */
export function RoomActions({ view, onChanged }: ActionsProps) {
  const [holding, setHolding] = useState(false);
  const [lifting, setLifting] = useState<RoomView["holds"][number] | null>(null);
  const mayHold = useMayDo("hold-workstation");
  const mayLift = useMayDo("lift-hold");
  const { workstation } = view.row;
  return (
    <Panel title="This room">
      <div className={styles.buttons}>
        <CaseButtons view={view} onChanged={onChanged} />
        {mayHold && workstation ? (
          <Button look="stop" onClick={() => setHolding(true)}>
            Hold: do not use
          </Button>
        ) : null}
        {mayLift
          ? view.holds.map((hold) => (
              <Button key={hold.id} onClick={() => setLifting(hold)}>
                Lift the hold of {hold.name}
              </Button>
            ))
          : null}
        <DayButtons view={view} onChanged={onChanged} />
        <LinkButton href={`/history?room=${view.row.roomId}`} look="quiet">
          History of {view.row.name}
        </LinkButton>
      </div>
      {workstation ? (
        <>
          <HoldDialog
            open={holding}
            workstation={workstation}
            onClose={() => setHolding(false)}
            onChanged={onChanged}
          />
          <LiftDialog hold={lifting} workstation={workstation} onClose={() => setLifting(null)} onChanged={onChanged} />
        </>
      ) : null}
    </Panel>
  );
}

function CaseButtons({ view, onChanged }: ActionsProps) {
  const start = useCommand("start-case");
  const end = useCommand("end-case");
  const mayStart = useMayDo("start-case");
  const mayEnd = useMayDo("end-case");
  const { row } = view;
  const run = async (command: typeof start | typeof end) => {
    await command.send({ roomId: row.roomId });
    onChanged();
  };
  return (
    <>
      {mayStart && row.occupancy.state === "idle" ? (
        <Button busy={start.busy} onClick={() => run(start)} disabledReason={whyNotStart(view)}>
          Case started
        </Button>
      ) : null}
      {mayEnd && row.occupancy.state === "in-use" ? (
        <Button look="primary" busy={end.busy} onClick={() => run(end)}>
          Case ended
        </Button>
      ) : null}
      <ProblemNotice problem={start.problem ?? end.problem} />
    </>
  );
}

function whyNotStart(view: RoomView): string | null {
  const { row } = view;
  if (mayStart(view)) return null;
  return row.headline ? `Not ready: ${row.headline}` : "This room is not ready.";
}

function DayButtons({ view, onChanged }: ActionsProps) {
  const close = useCommand("close-room");
  const open = useCommand("open-room");
  const mayClose = useMayDo("close-room");
  const mayOpen = useMayDo("open-room");
  const { roomId, occupancy } = view.row;
  const run = async (command: typeof close | typeof open) => {
    await command.send({ roomId });
    onChanged();
  };
  return (
    <>
      {mayClose && occupancy.state === "idle" ? (
        <Button busy={close.busy} onClick={() => run(close)}>
          Close for today
        </Button>
      ) : null}
      {mayOpen && occupancy.state === "closed" ? (
        <Button busy={open.busy} onClick={() => run(open)}>
          Open again
        </Button>
      ) : null}
      <ProblemNotice problem={close.problem ?? open.problem} />
    </>
  );
}
