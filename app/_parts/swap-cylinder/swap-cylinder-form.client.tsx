"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useMayDo } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { GAS_WORDS } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { Choice } from "@/app/_ui/choice";
import { FieldError } from "@/app/_ui/field";
import { Panel } from "@/app/_ui/panel";
import { GASES } from "@/lib/domain/vocabulary";
import type { TaskDetail } from "@/lib/schemas/task";
import { type ChosenSpare, chosenWords, SpareChoice } from "./spare-choice.client";
import styles from "./swap-cylinder.module.css";

type Swap = NonNullable<TaskDetail["swap"]>;
type TakenOff = "empty" | "in-use";

const TAKEN_OFF = [
  { value: "empty", label: "Empty" },
  { value: "in-use", label: "In use, part full" },
] as const;

export interface SwapCylinderFormProps {
  readonly workstationId: string;
  readonly swap: Swap;
  readonly onSwapped: (serial: string, owes: string | null) => void;
}

/** What comes off and how it is tagged, what goes on. The server refuses a cylinder whose pins do not fit this yoke. */
export function SwapCylinderForm({ workstationId, swap, onSwapped }: SwapCylinderFormProps) {
  const { fitted, position } = swap;
  const gas = gasWord(swap.gas);
  const [takenOff, setTakenOff] = useState<TakenOff | null>(null);
  const [spare, setSpare] = useState<ChosenSpare | null>(null);
  const [asked, setAsked] = useState(false);
  const { send, busy, problem } = useCommand("swap-cylinder");
  const maySwap = useMayDo("swap-cylinder");
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (!spare || (fitted && !takenOff)) return;
    const reply = await send({
      workstationId,
      position,
      takesOff: fitted?.id ?? null,
      cylinder: cylinderOf(spare),
      takenOff: takenOff ?? "empty",
    });
    if (reply?.ok) onSwapped(chosenWords(spare, swap.spares), reply.value.recheckTaskKey);
  };
  return (
    <form className={styles.steps} onSubmit={submit} noValidate>
      {fitted ? (
        <Panel title={`Off: ${fitted.serial}`} aside={`${gas}, size ${fitted.size}, yoke ${position}`}>
          <Choice
            legend="How is it tagged as it comes off?"
            size="large"
            options={TAKEN_OFF}
            value={takenOff}
            onChange={setTakenOff}
            error={asked && !takenOff ? "Say what the cylinder you take off holds." : null}
          />
        </Panel>
      ) : (
        <p>Nothing stands on yoke {position} now.</p>
      )}
      <Panel title="On" aside={`${gas} for yoke ${position}`}>
        <SpareChoice
          spares={swap.spares}
          chosen={spare}
          onChoose={setSpare}
          error={fieldMessage(problem, "cylinder") ?? fieldMessage(problem, "cylinder.serial")}
        />
        {asked && !spare ? (
          <FieldError>Choose the cylinder that goes on, or type the serial number on its label.</FieldError>
        ) : null}
      </Panel>
      <ProblemNotice problem={problem} />
      <Button
        type="submit"
        look="primary"
        size="large"
        wide
        busy={busy}
        disabledReason={maySwap ? null : "Your roles do not include swapping a cylinder."}
      >
        Swapped: {spare ? chosenWords(spare, swap.spares) : "choose a cylinder"}
      </Button>
    </form>
  );
}

const cylinderOf = (spare: ChosenSpare) => ("id" in spare ? { id: spare.id } : { serial: spare.serial });

function gasWord(name: string): string {
  const gas = GASES.find((one) => one === name);
  return gas ? GAS_WORDS[gas] : name;
}
