import type { Answer } from "@/lib/domain/answer";
import type { CheckItemView } from "@/lib/schemas/check";
import { readTyped, type Typed, type TypedField } from "./typed";

export interface FieldError {
  readonly field: TypedField | null;
  readonly message: string;
}

export interface GivenAnswer {
  readonly item: CheckItemView["item"];
  readonly subject: CheckItemView["subject"];
  readonly answer: Answer;
}

/** The answers of several items at once, and what is missing or wrong in each that has none. */
export function readAll(items: readonly CheckItemView[], fieldsOf: (item: CheckItemView) => Typed) {
  const answers: GivenAnswer[] = [];
  const errors: Record<string, FieldError> = {};
  for (const item of items) {
    const read = readTyped(item.form, fieldsOf(item));
    if (read.ok) answers.push({ item: item.item, subject: item.subject, answer: read.answer });
    else errors[item.key] = { field: read.field, message: read.message };
  }
  return { ok: answers.length === items.length, answers, errors };
}
