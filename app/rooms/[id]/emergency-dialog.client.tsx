"use client";

import { ReasonForm } from "@/app/_parts/reason-form.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { READINESS_WORDS } from "@/app/_parts/words";
import { Dialog } from "@/app/_ui/dialog.client";
import type { RoomView } from "@/lib/schemas/room";
import styles from "./room.module.css";

interface EmergencyProps {
  open: boolean;
  view: RoomView;
  onClose: () => void;
  onChanged: () => void;
}

/** A case in a room that may not start: recorded as what it is, so that nobody has to sign a check that was not done. */
export function EmergencyDialog({ open, view, onClose, onChanged }: EmergencyProps) {
  const use = useCommand("use-in-emergency");
  const { row } = view;
  const submit = async (reason: string) => {
    const reply = await use.send({ roomId: row.roomId, reason });
    if (!reply?.ok) return;
    onChanged();
    onClose();
  };
  return (
    <Dialog open={open} title={`Emergency use of ${row.name}`} onClose={onClose}>
      <p>
        <strong>{READINESS_WORDS[row.state]}.</strong> {row.headline}
      </p>
      <ul className={styles.follows}>
        <li>The case starts now, and the room’s state stays what it is.</li>
        <li>Your name, the time and the reason are kept; the morning’s review lists it.</li>
        <li>The whole check is owed when the case has ended.</li>
      </ul>
      <ReasonForm
        label="Why now, and why here?"
        hint="No names of patients, nothing that tells who they are."
        action="Start the case as an emergency"
        look="stop"
        busy={use.busy}
        problem={use.problem}
        onSubmit={submit}
      />
    </Dialog>
  );
}
