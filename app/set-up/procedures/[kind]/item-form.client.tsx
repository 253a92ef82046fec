"use client";

import Link from "next/link";
import { type FormEvent, useState } from "react";
import { Button } from "@/app/_ui/button.client";
import { SelectField, TextAreaField, TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { answerWords, BY_WORDS } from "@/app/set-up/procedures/words";
import styles from "@/app/set-up/set-up.module.css";
import { isOwnItem, itemOf } from "@/lib/domain/items";
import { ANSWERED_BY, type AnsweredBy } from "@/lib/domain/procedure/model";
import { AppliesFields } from "./applies-fields.client";
import type { Item } from "./draft-screen.client";
import { OwnFields } from "./own-fields.client";

const WORDS = [
  { field: "how", label: "How it is done", most: 400 },
  { field: "why", label: "Why it matters", most: 300 },
  { field: "whenItFails", label: "What to do when it fails", most: 300 },
] as const;

function withoutEmptyLimits(item: Item): Item {
  const { limits, ...rest } = item;
  return limits && Object.keys(limits).length > 0 ? item : rest;
}

/** One question's words, who answers it and where it is asked. A limit is not here: it belongs to the rule that judges the item. */
export function ItemForm({ item, onDone }: { item: Item; onDone: (item: Item) => void }) {
  const [typed, setTyped] = useState(item);
  const [tried, setTried] = useState(false);
  const own = isOwnItem(item.item);
  const set = (change: Partial<Item>) => setTyped((before) => ({ ...before, ...change }));
  const setForm = (answer: Item["answer"]) => {
    const { limits: _before, ...rest } = typed;
    setTyped({ ...rest, answer });
  };
  const missing = (text: string) => (tried && text.trim() === "" ? "Say it in a few words." : null);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if ([typed.title, typed.how, typed.why, typed.whenItFails].every((text) => text.trim() !== ""))
      onDone(withoutEmptyLimits(typed));
  };
  return (
    <Form onSubmit={submit}>
      <p className={styles.soft}>
        Looks at: {itemOf(item.item).name} ({itemOf(item.item).subject.replaceAll("-", " ")}). Answered by{" "}
        {answerWords(typed.answer)}.{" "}
        {own ? null : (
          <>
            Its limits are <Link href="/set-up/rules">the rules’</Link>.
          </>
        )}
      </p>
      <TextField
        label="Question"
        value={typed.title}
        maxLength={60}
        error={missing(typed.title)}
        onChange={({ target }) => set({ title: target.value })}
      />
      {WORDS.map(({ field, label, most }) => (
        <TextAreaField
          key={field}
          label={label}
          rows={3}
          maxLength={most}
          value={typed[field]}
          error={missing(typed[field])}
          onChange={({ target }) => set({ [field]: target.value })}
        />
      ))}
      <SelectField
        label="Who answers it"
        value={typed.by}
        onChange={({ target }) => set({ by: target.value as AnsweredBy })}
      >
        {ANSWERED_BY.map((by) => (
          <option key={by} value={by}>
            {BY_WORDS[by]}
          </option>
        ))}
      </SelectField>
      <label className={styles.check}>
        <input
          type="checkbox"
          checked={typed.sameUserMaySkip ?? false}
          onChange={({ target }) => set({ sameUserMaySkip: target.checked })}
        />
        The same user may leave it out on successive cases
      </label>
      {own ? <OwnFields item={typed} onChange={set} onForm={setForm} /> : null}
      <AppliesFields applies={typed.applies} onChange={(applies) => set({ applies })} />
      <Button type="submit" look="primary" size="large" wide>
        Put into the draft
      </Button>
    </Form>
  );
}
