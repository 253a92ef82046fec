import {
  type InputHTMLAttributes,
  type ReactNode,
  type SelectHTMLAttributes,
  type TextareaHTMLAttributes,
  useId,
} from "react";
import { classNames } from "./class-names";
import styles from "./field.module.css";

interface FieldProps {
  label: ReactNode;
  hint?: ReactNode;
  /** What is wrong and what would be right, or nothing. */
  error?: string | null;
}

interface ControlProps {
  id: string;
  className: string;
  "aria-invalid": true | undefined;
  "aria-describedby": string | undefined;
}

/** Label, hint and error around any one control, joined for screen readers. */
export function Field({
  label,
  hint,
  error,
  children,
}: FieldProps & { children: (control: ControlProps) => ReactNode }) {
  const id = useId();
  const described = [hint ? `${id}-hint` : null, error ? `${id}-error` : null].filter((part) => part !== null);
  return (
    <div className={styles.field}>
      <label htmlFor={id} className={styles.label}>
        {label}
      </label>
      {hint ? (
        <span id={`${id}-hint`} className={styles.hint}>
          {hint}
        </span>
      ) : null}
      {children({
        id,
        className: styles.control ?? "",
        "aria-invalid": error ? true : undefined,
        "aria-describedby": described.length > 0 ? described.join(" ") : undefined,
      })}
      {error ? <FieldError id={`${id}-error`}>{error}</FieldError> : null}
    </div>
  );
}

export function FieldError({ id, children }: { id?: string; children: ReactNode }) {
  return (
    <span id={id} className={styles.error}>
      <svg className={styles.errorMark} viewBox="0 0 16 16" aria-hidden="true">
        <path d="M5 1h6l4 4v6l-4 4H5l-4-4V5z" fill="currentColor" />
        <path d="M4.5 8h7" stroke="var(--plate)" strokeWidth="2.4" />
      </svg>
      <span>{children}</span>
    </span>
  );
}

type TextFieldProps = FieldProps & Omit<InputHTMLAttributes<HTMLInputElement>, "id">;

export function TextField({ label, hint, error, className, ...rest }: TextFieldProps) {
  return (
    <Field label={label} hint={hint} error={error}>
      {(control) => <input {...rest} {...control} className={classNames(control.className, className)} />}
    </Field>
  );
}

type TextAreaFieldProps = FieldProps & Omit<TextareaHTMLAttributes<HTMLTextAreaElement>, "id">;

export function TextAreaField({ label, hint, error, className, ...rest }: TextAreaFieldProps) {
  return (
    <Field label={label} hint={hint} error={error}>
      {(control) => <textarea {...rest} {...control} className={classNames(control.className, className)} />}
    </Field>
  );
}

type SelectFieldProps = FieldProps & Omit<SelectHTMLAttributes<HTMLSelectElement>, "id">;

export function SelectField({ label, hint, error, className, children, ...rest }: SelectFieldProps) {
  return (
    <Field label={label} hint={hint} error={error}>
      {(control) => (
        <select {...rest} {...control} className={classNames(control.className, className)}>
          {children}
        </select>
      )}
    </Field>
  );
}
