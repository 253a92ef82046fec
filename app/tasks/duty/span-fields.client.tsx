"use client";

import { ROLE_WORDS } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { SelectField, TextField } from "@/app/_ui/field";
import { ROLES, type Role } from "@/lib/domain/vocabulary";
import styles from "./duty.module.css";
import type { TypedSpan } from "./roster-types";

interface SpanFieldsProps {
  readonly roles: readonly Role[];
  readonly spans: readonly TypedSpan[];
  /** Saving was tried: now what is missing is said. */
  readonly asked: boolean;
  readonly onChange: (spans: readonly TypedSpan[]) => void;
}

/** What is wrong with a stretch before anybody is asked. */
export function spanProblem({ from, to }: { readonly from: string; readonly to: string }): string | null {
  if (from === "" || to === "") return "Give both times, such as 07:00 and 15:30.";
  return from === to ? "A stretch that ends when it begins lasts 24 hours; give another end." : null;
}

export function SpanFields({ roles, spans, asked, onChange }: SpanFieldsProps) {
  const change = (id: number, part: Partial<TypedSpan>) =>
    onChange(spans.map((span) => (span.id === id ? { ...span, ...part } : span)));
  return (
    <ol className={styles.spanList}>
      {spans.map((span, index) => (
        <li key={span.id} className={styles.span}>
          <SelectField
            label="Role"
            value={span.role}
            onChange={({ target }) =>
              change(span.id, { role: ROLES.find((role) => role === target.value) ?? span.role })
            }
          >
            {roles.map((role) => (
              <option key={role} value={role}>
                {ROLE_WORDS[role]}
              </option>
            ))}
          </SelectField>
          <TextField
            label="From"
            type="time"
            value={span.from}
            onChange={({ target }) => change(span.id, { from: target.value })}
          />
          <TextField
            label="To"
            type="time"
            value={span.to}
            error={asked ? spanProblem(span) : null}
            onChange={({ target }) => change(span.id, { to: target.value })}
          />
          <Button
            aria-label={`Remove stretch ${index + 1}`}
            onClick={() => onChange(spans.filter(({ id }) => id !== span.id))}
          >
            Remove
          </Button>
        </li>
      ))}
    </ol>
  );
}
