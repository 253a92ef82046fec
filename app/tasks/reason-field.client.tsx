"use client";

import { useState } from "react";
import { Choice } from "@/app/_ui/choice";
import { TextAreaField } from "@/app/_ui/field";
import styles from "./tasks.module.css";

const OTHER = "In other words";

interface ReasonFieldProps {
  readonly legend: string;
  /** What it usually is, to be tapped with a glove on. */
  readonly usual: readonly string[];
  readonly error: string | null;
  /** The reason as it would be recorded, or nothing yet. */
  readonly onReason: (reason: string) => void;
}

/** The usual reasons as plates, and a field for what is not usual. */
export function ReasonField({ legend, usual, error, onReason }: ReasonFieldProps) {
  const [chosen, setChosen] = useState<string | null>(null);
  const [text, setText] = useState("");
  const choose = (value: string) => {
    setChosen(value);
    onReason(value === OTHER ? text.trim() : value);
  };
  return (
    <div className={styles.reason}>
      <Choice
        legend={legend}
        size="large"
        options={[...usual, OTHER].map((value) => ({ value, label: value }))}
        value={chosen}
        onChange={choose}
        error={chosen === OTHER ? null : error}
      />
      {chosen === OTHER ? (
        <TextAreaField
          label="The reason"
          rows={2}
          maxLength={300}
          value={text}
          error={error}
          onChange={({ target }) => {
            setText(target.value);
            onReason(target.value.trim());
          }}
        />
      ) : null}
    </div>
  );
}
