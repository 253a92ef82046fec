"use client";

import { type FormEvent, useState } from "react";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Choice } from "@/app/_ui/choice";
import { Form } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import type { SparesView } from "@/lib/schemas/moves";
import { SpareList, UnsuitableList } from "./spare-lists.client";
import { candidateOf, chosenWith, firstChoice, isSuitable, type SwapChosen, swapWords } from "./swap-choice";
import type { Swapped } from "./swap-done";

interface SwapFormProps {
  spares: SparesView;
  onSwapped: (swapped: Swapped) => void;
  onRefused: () => void;
}

/** The nearest checked spare stands chosen, with where the other one goes; one tap more does it. */
export function SwapForm({ spares, onSwapped, onRefused }: SwapFormProps) {
  const { outgoing, stores } = spares;
  const swap = useCommand("swap-workstation");
  const [chosen, setChosen] = useState<SwapChosen | null>(() => firstChoice(spares));
  const [asked, setAsked] = useState(false);
  const incoming = candidateOf(spares, chosen?.workstationId ?? null);
  const storeId = chosen?.storeId ?? null;
  const choose = (workstationId: string) => {
    const one = candidateOf(spares, workstationId);
    if (one) setChosen(chosenWith(one, stores, null));
  };
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (!incoming || (outgoing && storeId === null)) return;
    const reply = await swap.send({
      roomId: spares.room.id,
      outgoingWorkstationId: outgoing?.id ?? null,
      incomingWorkstationId: incoming.workstationId,
      outgoingTo: outgoing && storeId !== null ? { store: storeId } : null,
      ...(isChecked(incoming) ? {} : { acceptUnchecked: true }),
    });
    if (reply?.ok) onSwapped({ ...reply.value, roomName: spares.room.name });
    else onRefused();
  };
  const none = spares.suitable.length === 0;
  return (
    <Form onSubmit={submit}>
      {none ? (
        <Notice tone="heed" title="No checked spare fits this room’s list">
          <p>{spares.unsuitable.length === 0 ? "No workstation stands in a store." : "Why not stands beside each."}</p>
        </Notice>
      ) : (
        <SpareList spares={spares.suitable} chosen={incoming?.workstationId ?? null} onChoose={choose} />
      )}
      <UnsuitableList
        spares={spares.unsuitable}
        chosen={incoming?.workstationId ?? null}
        onChoose={choose}
        startsOpen={none}
      />
      {outgoing && stores.length > 0 ? (
        <Choice
          legend={`${outgoing.tag} goes to`}
          options={stores.map(({ id, name }) => ({ value: id, label: name }))}
          value={storeId}
          onChange={(id) => chosen && setChosen({ ...chosen, storeId: id })}
          error={asked && incoming && storeId === null ? `Say where ${outgoing.tag} goes.` : null}
        />
      ) : null}
      <ProblemNotice problem={swap.problem} />
      <Button
        type="submit"
        look="primary"
        size="large"
        wide
        busy={swap.busy}
        disabledReason={incoming ? null : "Choose the workstation that comes in."}
      >
        {incoming
          ? `${swapWords(incoming.tag, outgoing?.tag ?? null, storeId, stores)}${isChecked(incoming) ? "" : ", unchecked"}`
          : "Swap"}
      </Button>
    </Form>
  );
}

const isChecked = (candidate: NonNullable<ReturnType<typeof candidateOf>>): boolean =>
  isSuitable(candidate) || candidate.checked;
