"use client";

import { ChoiceField } from "./choice-field.client";
import type { FieldProps } from "./field-props";
import { GaugeField } from "./gauge-field.client";
import { NumberField } from "./number-field.client";
import { PassField } from "./pass-field.client";
import { TimedField } from "./timed-field.client";
import type { AnswerForm, Typed } from "./typed";

type Kind = AnswerForm["kind"];

export interface AnswerFieldProps extends Omit<FieldProps<Kind>, "form" | "typed" | "onTyped" | "onComplete"> {
  readonly form: AnswerForm;
  readonly typed: Typed;
  readonly onTyped: (typed: Typed) => void;
  readonly onComplete: (typed: Typed) => void;
}

/** The fields of one item, by its form. The first control of each carries data-first. */
export function AnswerField({ form, typed, ...rest }: AnswerFieldProps) {
  if (form.kind === "pass" && typed.kind === "pass") return <PassField form={form} typed={typed} {...rest} />;
  if (form.kind === "number" && typed.kind === "number") return <NumberField form={form} typed={typed} {...rest} />;
  if (form.kind === "gauge" && typed.kind === "gauge") return <GaugeField form={form} typed={typed} {...rest} />;
  if (form.kind === "choice" && typed.kind === "choice") return <ChoiceField form={form} typed={typed} {...rest} />;
  if (form.kind === "timed" && typed.kind === "timed") return <TimedField form={form} typed={typed} {...rest} />;
  return null;
}
