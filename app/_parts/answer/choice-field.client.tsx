"use client";

import { FieldError } from "@/app/_ui/field";
import { ChoicePicture, isDrawn } from "./choice-picture";
import { errorOf, type FieldProps } from "./field-props";
import styles from "./fields.module.css";
import { onAnswerKey } from "./keys.client";
import { Option } from "./option.client";

/** What is seen, out of a few. One tap is the answer; figures choose on a keyboard. */
export function ChoiceField({ form, typed, label, error, item, onComplete }: FieldProps<"choice">) {
  const give = (choice: string) => () => onComplete({ ...typed, choice });
  const keys = Object.fromEntries(form.options.map(({ value }, index) => [String(index + 1), give(value)]));
  const message = errorOf(error, "choice");
  return (
    <fieldset className={styles.field} aria-label={label} onKeyDown={onAnswerKey(keys)}>
      <div className={styles.options}>
        {form.options.map(({ value, label: words }, index) => (
          <Option
            key={value}
            label={words}
            chosen={typed.choice === value}
            onChoose={give(value)}
            picture={isDrawn(item) ? <ChoicePicture item={item} choice={value} /> : undefined}
            shortcut={index < 9 ? String(index + 1) : undefined}
            first={index === 0}
          />
        ))}
      </div>
      {message ? <FieldError>{message}</FieldError> : null}
    </fieldset>
  );
}
