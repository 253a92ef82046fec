"use client";

import { LiftHoldForm } from "@/app/_parts/lift-hold-form.client";
import { ReasonForm } from "@/app/_parts/reason-form.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Dialog } from "@/app/_ui/dialog.client";
import type { RoomView } from "@/lib/schemas/room";

interface Workstation {
  id: string;
  tag: string;
}

interface HoldDialogProps {
  open: boolean;
  workstation: Workstation;
  onClose: () => void;
  onChanged: () => void;
}

/** "Do not use, looking at it": anybody who checks may hold; the reason is for who comes next. */
export function HoldDialog({ open, workstation, onClose, onChanged }: HoldDialogProps) {
  const hold = useCommand("hold-workstation");
  const submit = async (reason: string) => {
    const reply = await hold.send({ workstationId: workstation.id, reason });
    if (!reply?.ok) return;
    onChanged();
    onClose();
  };
  return (
    <Dialog open={open} title={`Hold workstation ${workstation.tag}`} onClose={onClose}>
      <p>It shows “Do not use” at once. You or the charge provider lift the hold again, with a reason.</p>
      <ReasonForm
        label="What is the matter?"
        action="Hold it"
        busy={hold.busy}
        problem={hold.problem}
        onSubmit={submit}
      />
    </Dialog>
  );
}

interface LiftDialogProps {
  hold: RoomView["holds"][number] | null;
  workstation: Workstation;
  onClose: () => void;
  onChanged: () => void;
}

export function LiftDialog({ hold, workstation, onClose, onChanged }: LiftDialogProps) {
  const done = () => {
    onChanged();
    onClose();
  };
  return (
    <Dialog open={hold !== null} title={`Lift the hold on ${workstation.tag}`} onClose={onClose}>
      <p>
        {hold?.name} held it: “{hold?.reason}”
      </p>
      {hold ? <LiftHoldForm holdId={hold.id} workstationId={workstation.id} onDone={done} /> : null}
    </Dialog>
  );
}
