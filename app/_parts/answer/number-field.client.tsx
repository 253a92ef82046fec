"use client";

import { errorOf, type FieldProps } from "./field-props";
import styles from "./fields.module.css";
import { NumberPad } from "./number-pad.client";
import { ReadingInput } from "./reading-input.client";

/** One reading. Next, or Enter, gives it. */
export function NumberField({ form, typed, label, limits, error, recorded, onTyped }: FieldProps<"number">) {
  const onText = (text: string) => onTyped({ ...typed, text });
  return (
    <div className={styles.field}>
      <ReadingInput
        label={label}
        text={typed.text}
        scale={form}
        limits={limits}
        error={errorOf(error, "reading")}
        onText={onText}
        first
      />
      <NumberPad text={typed.text} decimals={form.decimals} unit={form.unit} recorded={recorded} onText={onText} />
    </div>
  );
}
