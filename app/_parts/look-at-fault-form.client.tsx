"use client";

import { ReasonForm } from "./reason-form.client";
import { useCommand } from "./use-command.client";

interface LookAtFaultFormProps {
  fault: { readonly id: string; readonly name: string; readonly text: string };
  workstationId: string;
  onDone: () => void;
}

/** What came of looking: the conclusion closes the report, the history keeps both. */
export function LookAtFaultForm({ fault, workstationId, onDone }: LookAtFaultFormProps) {
  const look = useCommand("look-at-fault");
  const submit = async (conclusion: string) => {
    const reply = await look.send({ workstationId, faultId: fault.id, conclusion });
    if (reply?.ok) onDone();
  };
  return (
    <ReasonForm
      label="What did you find, and what did you do?"
      action="Looked at: it may be used"
      busy={look.busy}
      problem={look.problem}
      field="conclusion"
      most={500}
      onSubmit={submit}
    />
  );
}
