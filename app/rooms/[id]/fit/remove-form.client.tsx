"use client";

import { type FormEvent, useState } from "react";
import { DueAgain } from "@/app/_parts/fit/due-again-notice";
import type { FitDone } from "@/app/_parts/fit/fit-done";
import type { PartWork } from "@/app/_parts/fit/part-work";
import { StoreChoice } from "@/app/_parts/fit/store-choice";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Form } from "@/app/_ui/form";
import type { SparePartsView } from "@/lib/schemas/moves";
import type { RoomView } from "@/lib/schemas/room";

interface RemoveFormProps {
  work: Extract<PartWork, { kind: "remove" }>;
  view: RoomView;
  parts: SparePartsView;
  onDone: (done: FitDone) => void;
  onRefused: () => void;
}

/** A vaporizer comes off and nothing takes its place: the open mount must show that it closes. */
export function RemoveForm({ work, view, parts, onDone, onRefused }: RemoveFormProps) {
  const remove = useCommand("remove-part");
  const [storeId, setStoreId] = useState(parts.stores[0]?.id ?? null);
  const { part, position } = work;
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const reply = await remove.send({
      workstationId: parts.workstationId,
      kind: "vaporizer",
      partId: part.id,
      ...(storeId === null ? {} : { toStoreId: storeId }),
    });
    if (!reply?.ok) return onRefused();
    const { removed, recheckTaskKey } = reply.value;
    onDone({ fitted: null, takenOff: removed, place: "", recheckTaskKey });
  };
  return (
    <Form onSubmit={submit}>
      <p>Mount {position} stays empty.</p>
      <StoreChoice tag={part.tag} stores={parts.stores} storeId={storeId} onChange={setStoreId} />
      <DueAgain kind="remove" asked={view.parts.map(({ item }) => item)} />
      <ProblemNotice problem={remove.problem} />
      <Button type="submit" look="primary" size="large" wide busy={remove.busy}>
        {part.tag} is off
      </Button>
    </Form>
  );
}
