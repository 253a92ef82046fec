"use client";

import { FieldError } from "@/app/_ui/field";
import { errorOf, type FieldProps } from "./field-props";
import styles from "./fields.module.css";
import { onAnswerKey } from "./keys.client";
import { Option } from "./option.client";

/** Works or does not, in the item's own words. One tap is the answer. */
export function PassField({ form, typed, label, error, onComplete }: FieldProps<"pass">) {
  const give = (passed: boolean) => () => onComplete({ ...typed, passed });
  const message = errorOf(error, "passed");
  return (
    <fieldset className={styles.field} aria-label={label} onKeyDown={onAnswerKey({ y: give(true), n: give(false) })}>
      <div className={styles.options}>
        <Option label={form.yes} chosen={typed.passed === true} onChoose={give(true)} shortcut="y" first />
        <Option label={form.no} chosen={typed.passed === false} onChoose={give(false)} shortcut="n" />
      </div>
      {message ? <FieldError>{message}</FieldError> : null}
    </fieldset>
  );
}
