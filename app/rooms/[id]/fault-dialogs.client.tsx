"use client";

import { useState } from "react";
import { LookAtFaultForm } from "@/app/_parts/look-at-fault-form.client";
import { ReasonForm } from "@/app/_parts/reason-form.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Choice } from "@/app/_ui/choice";
import { Dialog } from "@/app/_ui/dialog.client";
import type { RoomView } from "@/lib/schemas/room";

interface Workstation {
  readonly id: string;
  readonly tag: string;
}

interface ReportProps {
  open: boolean;
  workstation: Workstation;
  onClose: () => void;
  onChanged: () => void;
}

const USES = [
  { value: "use", label: "Yes, it can be used" },
  { value: "not", label: "No, I would not use it" },
] as const;
type Use = (typeof USES)[number]["value"];

/** A fault in somebody's own words. Whether it stops the workstation is theirs to say, so nothing is preset. */
export function ReportFaultDialog({ open, workstation, onClose, onChanged }: ReportProps) {
  return (
    <Dialog open={open} title={`Report a fault of ${workstation.tag}`} onClose={onClose}>
      <ReportForm workstation={workstation} onClose={onClose} onChanged={onChanged} />
    </Dialog>
  );
}

function ReportForm({ workstation, onClose, onChanged }: Omit<ReportProps, "open">) {
  const report = useCommand("report-fault");
  const [use, setUse] = useState<Use | null>(null);
  const [asked, setAsked] = useState(false);
  const submit = async (text: string) => {
    setAsked(true);
    if (use === null) return;
    const reply = await report.send({ workstationId: workstation.id, text, wouldNotUse: use === "not" });
    if (!reply?.ok) return;
    onChanged();
    onClose();
  };
  return (
    <ReasonForm
      label="What is wrong?"
      hint="What you saw, heard or read, and where."
      action={use === "not" ? "Report it: do not use" : "Report it"}
      look={use === "not" ? "stop" : "primary"}
      busy={report.busy}
      problem={report.problem}
      field="text"
      most={500}
      onSubmit={submit}
    >
      <Choice
        legend="Would you use it as it is?"
        size="large"
        options={USES}
        value={use}
        onChange={setUse}
        error={asked && use === null ? "Choose one: it decides whether the room stops." : null}
      />
      {use === "not" ? <p>The room shows “Do not use” until somebody has looked at it.</p> : null}
      {use === "use" ? <p>The room stays as it is; a technician or engineer is asked to look.</p> : null}
    </ReasonForm>
  );
}

interface LookProps {
  fault: RoomView["faults"][number] | null;
  workstation: Workstation;
  onClose: () => void;
  onChanged: () => void;
}

export function LookAtFaultDialog({ fault, workstation, onClose, onChanged }: LookProps) {
  const done = () => {
    onChanged();
    onClose();
  };
  return (
    <Dialog open={fault !== null} title={`Looked at ${workstation.tag}`} onClose={onClose}>
      <p>
        {fault?.name} reported: “{fault?.text}”
      </p>
      <p>If it is still not right, close this and hold the workstation.</p>
      {fault ? <LookAtFaultForm fault={fault} workstationId={workstation.id} onDone={done} /> : null}
    </Dialog>
  );
}
