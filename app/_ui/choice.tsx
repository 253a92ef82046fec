import { type InputHTMLAttributes, type ReactNode, useId } from "react";
import styles from "./choice.module.css";
import { classNames } from "./class-names";
import { FieldError } from "./field";
import { VisuallyHidden } from "./visually-hidden";

export interface Option<Value extends string> {
  value: Value;
  label: ReactNode;
}

export interface ChoiceProps<Value extends string> {
  legend: ReactNode;
  options: readonly Option<Value>[];
  /** Null: nothing is preset, the person has to choose. */
  value: Value | null;
  onChange: (value: Value) => void;
  size?: "normal" | "large";
  /** The legend is only spoken: the place on screen already says what is chosen. */
  quiet?: boolean;
  error?: string | null;
}

/** One of a few, all in sight: radio buttons drawn as plates. */
export function Choice<Value extends string>({
  legend,
  options,
  value,
  onChange,
  size = "normal",
  quiet = false,
  error,
}: ChoiceProps<Value>) {
  const name = useId();
  const errorId = `${name}-error`;
  return (
    <fieldset className={classNames(size === "large" && styles.large)} aria-describedby={error ? errorId : undefined}>
      <legend className={quiet ? undefined : styles.legend}>
        {quiet ? <VisuallyHidden>{legend}</VisuallyHidden> : legend}
      </legend>
      <div className={styles.options}>
        {options.map((option) => (
          <label key={option.value} className={styles.option}>
            <input
              type="radio"
              name={name}
              value={option.value}
              checked={value === option.value}
              onChange={() => onChange(option.value)}
            />
            <span>{option.label}</span>
          </label>
        ))}
      </div>
      {error ? (
        <div className={styles.error}>
          <FieldError id={errorId}>{error}</FieldError>
        </div>
      ) : null}
    </fieldset>
  );
}

type CheckboxProps = { label: ReactNode } & Omit<InputHTMLAttributes<HTMLInputElement>, "type">;

export function Checkbox({ label, ...rest }: CheckboxProps) {
  return (
    <label className={styles.check}>
      <input {...rest} type="checkbox" />
      <span>{label}</span>
    </label>
  );
}
