"use client";

import { type FormEvent, useState } from "react";
import { Button } from "@/app/_ui/button.client";
import { Choice } from "@/app/_ui/choice";
import { TextAreaField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import type { Role } from "@/lib/domain/vocabulary";
import { fieldMessage } from "./api.client";
import type { Commands } from "./command-types";
import { ProblemNotice } from "./problem-notice";
import { useCommand } from "./use-command.client";
import { rolesInWords } from "./words";

type AllowFor = Commands["allow-limit"]["input"]["allowFor"];

const HOW_LONG: readonly { value: AllowFor; label: string }[] = [
  { value: "this-list", label: "This list" },
  { value: "1-day", label: "1 day" },
  { value: "3-days", label: "3 days" },
  { value: "10-days", label: "10 days" },
];

const MOST = 300;

export interface AllowLimitFormProps {
  workstationId: string;
  rule: string;
  /** The reason's sentence: what is being allowed. */
  what: string;
  onAllowed: () => void;
}

/** Use with a limit: who may, says for how long and what is done meanwhile. At its end the next case is stopped. */
export function AllowLimitForm({ workstationId, rule, what, onAllowed }: AllowLimitFormProps) {
  const allow = useCommand("allow-limit");
  const [allowFor, setAllowFor] = useState<AllowFor>("this-list");
  const [measures, setMeasures] = useState("");
  const [missing, setMissing] = useState(false);
  const [stillNeeds, setStillNeeds] = useState<readonly Role[]>([]);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setMissing(measures.trim() === "");
    if (measures.trim() === "") return;
    const reply = await allow.send({ workstationId, rule, allowFor, measures: measures.trim() });
    if (!reply?.ok) return;
    setStillNeeds(reply.value.stillNeeds);
    if (reply.value.stillNeeds.length === 0) onAllowed();
  };
  if (stillNeeds.length > 0) {
    return (
      <Notice tone="heed" title="Recorded" announce="status">
        <p>It takes effect when a {rolesInWords(stillNeeds, "and")} allows it too.</p>
      </Notice>
    );
  }
  const error = missing ? "Say what is done meanwhile." : fieldMessage(allow.problem, "measures");
  return (
    <Form onSubmit={submit}>
      <p>{what}</p>
      <Choice legend="Allow use for" options={HOW_LONG} value={allowFor} onChange={setAllowFor} />
      <TextAreaField
        label="What is done meanwhile"
        hint="What the provider does differently, and what was made safe first."
        maxLength={MOST}
        value={measures}
        error={error}
        onChange={(event) => setMeasures(event.target.value)}
      />
      <Button type="submit" look="primary" size="large" busy={allow.busy}>
        Allow use with this limit
      </Button>
      {error ? null : <ProblemNotice problem={allow.problem} />}
    </Form>
  );
}
