"use client";

import { ReasonForm } from "./reason-form.client";
import { useCommand } from "./use-command.client";

interface LiftHoldFormProps {
  holdId: string;
  workstationId: string;
  onDone: () => void;
}

/** The holder, or the charge provider, says why it may be used again. */
export function LiftHoldForm({ holdId, workstationId, onDone }: LiftHoldFormProps) {
  const lift = useCommand("lift-hold");
  const submit = async (reason: string) => {
    const reply = await lift.send({ workstationId, holdId, reason });
    if (reply?.ok) onDone();
  };
  return (
    <ReasonForm
      label="Why may it be used again?"
      action="Lift the hold"
      busy={lift.busy}
      problem={lift.problem}
      onSubmit={submit}
    />
  );
}
