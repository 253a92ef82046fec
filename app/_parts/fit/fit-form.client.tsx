"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { SelectField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { AGENTS, type Agent } from "@/lib/domain/vocabulary";
import { AGENT_NAMES } from "@/lib/domain/wording";
import type { SparePartsView } from "@/lib/schemas/moves";
import { DueAgain } from "./due-again-notice";
import { type FitChosen, requestOf, wordsOf } from "./fit-chosen";
import type { FitDone } from "./fit-done";
import { optionsFor } from "./fit-options";
import { PartChoice } from "./part-choice.client";
import type { FitWork } from "./part-work";
import { StoreChoice } from "./store-choice";

export interface FitPlace {
  /** The product that comes off, where one of the same kind may simply take its place. */
  readonly product: string | null;
  /** The facility's date. */
  readonly today: string;
  /** Items that this workstation is asked for. */
  readonly asked: readonly string[];
}

interface FitFormProps {
  work: FitWork;
  place: FitPlace;
  parts: SparePartsView;
  onDone: (done: FitDone) => void;
  onRefused: () => void;
}

const NAMES = { vaporizer: "vaporizer", absorbent: "absorbent", "oxygen-sensor": "oxygen sensor" } as const;

/** What goes on, where the old one goes, and what is then due again; nothing chosen is lost when it is refused. */
export function FitForm({ work, place, parts, onDone, onRefused }: FitFormProps) {
  const fit = useCommand("fit-part");
  const { product, today } = place;
  const [chosen, setChosen] = useState<FitChosen | null>(() => firstOf(work, product, parts.workstationId));
  const [agent, setAgent] = useState<Agent | "">("");
  const [storeId, setStoreId] = useState(parts.stores[0]?.id ?? null);
  const [asked, setAsked] = useState(false);
  const options = optionsFor(work, parts, today);
  const store = work.kind === "vaporizer" && work.takesOff !== null ? storeId : null;
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (!chosen) return;
    const reply = await fit.send(requestOf(work, chosen, parts, agent || null, store));
    if (reply?.ok) onDone({ ...reply.value, place: whereOf(work) });
    else onRefused();
  };
  const said = fieldMessage(fit.problem, "part") ?? fieldMessage(fit.problem, "part.agent");
  return (
    <Form onSubmit={submit}>
      {work.goesOn ? (
        <p>
          <strong>{work.goesOn.tag}</strong> goes from its mount to mount {work.position}.
        </p>
      ) : (
        <PartChoice
          name={NAMES[work.kind]}
          product={product}
          options={options}
          chosen={chosen}
          onChoose={setChosen}
          error={asked && !chosen ? `Choose the ${NAMES[work.kind]} that goes on, or type its tag.` : said}
        />
      )}
      {work.kind === "vaporizer" && chosen?.by === "tag" ? (
        <SelectField
          label="Agent on its label"
          hint="If you read it there: a wrong record is then refused."
          value={agent}
          onChange={(event) => setAgent(AGENTS.find((one) => one === event.target.value) ?? "")}
        >
          <option value="">Not read</option>
          {AGENTS.map((one) => (
            <option key={one} value={one}>
              {AGENT_NAMES[one]}
            </option>
          ))}
        </SelectField>
      ) : null}
      {work.kind === "vaporizer" && work.takesOff ? (
        <StoreChoice tag={work.takesOff.tag} stores={parts.stores} storeId={storeId} onChange={setStoreId} />
      ) : null}
      <DueAgain kind={work.kind} asked={place.asked} />
      <ProblemNotice problem={fit.problem} />
      <Button type="submit" look="primary" size="large" wide busy={fit.busy}>
        {wordsOf(work, chosen, options, product)}
      </Button>
    </Form>
  );
}

/** The same product again is what nearly always goes on; of vaporizers nothing is taken for granted. */
function firstOf({ goesOn }: FitWork, product: string | null, workstationId: string): FitChosen | null {
  if (goesOn) return { by: "id", id: goesOn.id, takenFrom: workstationId };
  return product === null ? null : { by: "same" };
}

function whereOf({ kind, position }: FitWork): string {
  if (kind === "vaporizer") return `on mount ${position}`;
  return kind === "absorbent" ? `in canister ${position}` : "in place";
}
