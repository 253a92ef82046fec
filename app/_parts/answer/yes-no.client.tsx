"use client";

import { useId } from "react";
import { FieldError } from "@/app/_ui/field";
import styles from "./fields.module.css";
import { onAnswerKey } from "./keys.client";
import { Option } from "./option.client";

export interface YesNoProps {
  readonly label: string;
  readonly value: boolean | null;
  readonly yes: string;
  readonly no: string;
  readonly onChange: (value: boolean) => void;
  readonly error?: string | null;
  /** Names the question for whoever moves the focus to what is still missing. */
  readonly field?: string;
}

/** One question with two answers and neither preset. On a keyboard y and n answer it. */
export function YesNo({ label, value, yes, no, onChange, error, field }: YesNoProps) {
  const id = useId();
  const keys = { y: () => onChange(true), n: () => onChange(false) };
  return (
    <fieldset
      className={styles.ask}
      aria-labelledby={id}
      aria-describedby={error ? `${id}-error` : undefined}
      data-field={field}
      onKeyDown={onAnswerKey(keys)}
    >
      <span id={id}>{label}</span>
      <div className={styles.yesNo}>
        <Option label={yes} chosen={value === true} onChoose={keys.y} />
        <Option label={no} chosen={value === false} onChoose={keys.n} />
      </div>
      {error ? (
        <p>
          <FieldError id={`${id}-error`}>{error}</FieldError>
        </p>
      ) : null}
    </fieldset>
  );
}
