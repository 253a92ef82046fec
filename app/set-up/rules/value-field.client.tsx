"use client";

import { SelectField, TextField } from "@/app/_ui/field";
import styles from "@/app/set-up/set-up.module.css";
import type { RuleLine } from "@/lib/schemas/rules";
import type { TypedValue } from "./typed-value";
import { nameText, valueText } from "./words";

export interface ValueFieldProps {
  value: RuleLine["values"][number];
  typed: TypedValue;
  error: string | null;
  onTyped: (typed: TypedValue) => void;
}

/** One limit with its unit; a choice of words and a yes or no are chosen, not typed. */
export function ValueField({
  value: { name, shipped, units, choices, citation },
  typed,
  error,
  onTyped,
}: ValueFieldProps) {
  const label = nameText(name);
  const hint = `Shipped ${valueText(shipped)}. ${citation}`;
  const words = typeof shipped === "boolean" ? ["yes", "no"] : choices;
  if (words)
    return (
      <SelectField
        label={label}
        hint={hint}
        value={typed.text}
        error={error}
        onChange={(event) => onTyped({ ...typed, text: event.target.value })}
      >
        {words.map((word) => (
          <option key={word} value={word}>
            {word}
          </option>
        ))}
      </SelectField>
    );
  const text = (
    <TextField
      label={label}
      hint={hint}
      inputMode={typeof shipped === "string" ? undefined : "decimal"}
      autoComplete="off"
      value={typed.text}
      error={error}
      onChange={(event) => onTyped({ ...typed, text: event.target.value })}
    />
  );
  if (units.length < 2) return text;
  return (
    <div className={styles.pair}>
      {text}
      <SelectField
        label={`${label}: unit`}
        value={typed.unit}
        onChange={(event) => onTyped({ ...typed, unit: event.target.value })}
      >
        {units.map((unit) => (
          <option key={unit} value={unit}>
            {unit}
          </option>
        ))}
      </SelectField>
    </div>
  );
}
