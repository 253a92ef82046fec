"use client";

import { ReasonForm } from "@/app/_parts/reason-form.client";
import { useCommand } from "@/app/_parts/use-command.client";

/** A drill or a recall ends by a word; a real loss of supply only after every room has shown that it is back. */
export function EndEvent({ eventId, onEnded }: { eventId: string; onEnded: () => void }) {
  const end = useCommand("end-event");
  return (
    <ReasonForm
      label="What came of it"
      action="End it"
      busy={end.busy}
      problem={end.problem}
      onSubmit={async (reason) => {
        const reply = await end.send({ eventId, reason });
        if (reply?.ok) onEnded();
      }}
    />
  );
}
