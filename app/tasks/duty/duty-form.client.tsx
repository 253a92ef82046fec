"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState } from "react";
import { longDayText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { SelectField } from "@/app/_ui/field";
import { Form, FormActions } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import type { Role } from "@/lib/domain/vocabulary";
import type { Person, Span, TypedSpan } from "./roster-types";
import { SpanFields, spanProblem } from "./span-fields.client";

interface DutyFormProps {
  readonly date: string;
  /** One, or several to choose from. */
  readonly people: readonly Person[];
  readonly spans: readonly Span[];
  readonly onDone: () => void;
}

const USUAL = { from: "07:00", to: "15:30" } as const;

/** One person's duty of one day as a whole: what stands here is what is said for that day. */
export function DutyForm({ date, people, spans, onDone }: DutyFormProps) {
  const router = useRouter();
  const { send, busy, problem } = useCommand("set-duty");
  const [personId, setPersonId] = useState(people.length === 1 ? (people[0]?.id ?? "") : "");
  const person = people.find(({ id }) => id === personId) ?? null;
  const [typed, setTyped] = useState<readonly TypedSpan[]>(spans.map((span, id) => ({ ...span, id })));
  const [asked, setAsked] = useState(false);
  const add = (role: Role) => setTyped([...typed, { id: nextId(typed), role, ...USUAL }]);
  const choose = (id: string) => {
    setPersonId(id);
    const role = people.find((one) => one.id === id)?.roles[0];
    setTyped(role ? [{ id: 0, role, ...USUAL }] : []);
  };
  const save = async (wanted: readonly Span[]) => {
    setAsked(true);
    if (!person || wanted.some(spanProblem)) return;
    const reply = await send({
      date,
      personId: person.id,
      spans: wanted.map(({ role, from, to }) => ({ role, from, to })),
    });
    if (!reply?.ok) return;
    router.refresh();
    onDone();
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    void save(typed);
  };
  return (
    <Form onSubmit={submit}>
      {people.length === 1 ? null : (
        <SelectField
          label="Who"
          value={personId}
          error={asked && !person ? "Choose a person." : null}
          onChange={({ target }) => choose(target.value)}
        >
          <option value="">Choose a person</option>
          {people.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </SelectField>
      )}
      <p>On {longDayText(date)}. An end before its beginning is on the next day; stretches that overlap become one.</p>
      {person ? <SpanFields roles={person.roles} spans={typed} asked={asked} onChange={setTyped} /> : null}
      {person && typed.length === 0 ? <Notice title="Off duty that day" /> : null}
      <ProblemNotice problem={problem} />
      <FormActions>
        <Button type="submit" look="primary" busy={busy}>
          Save
        </Button>
        {person?.roles[0] && typed.length < MOST ? (
          <Button onClick={() => add(person.roles[0] as Role)}>Add a stretch</Button>
        ) : null}
      </FormActions>
    </Form>
  );
}

const MOST = 10;

const nextId = (spans: readonly TypedSpan[]): number => spans.reduce((most, { id }) => Math.max(most, id + 1), 0);
