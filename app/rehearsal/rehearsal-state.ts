import type { FieldError } from "@/app/_parts/answer/read-all";
import { readTyped, type Typed, untouched } from "@/app/_parts/answer/typed";
import type { Answer } from "@/lib/domain/answer";
import type { RehearsalQuestionView } from "@/lib/schemas/rehearsal";

/** Lives in this page and nowhere else: a rehearsal that is left is forgotten. */
export interface RehearsalState {
  readonly current: string;
  readonly seen: Readonly<Record<string, number>>;
  readonly typed: Readonly<Record<string, Typed>>;
  readonly answers: Readonly<Record<string, Answer>>;
  readonly error: FieldError | null;
}

export type RehearsalAction =
  | { readonly type: "looked"; readonly key: string }
  | { readonly type: "typed"; readonly key: string; readonly typed: Typed }
  | { readonly type: "went"; readonly to: string }
  | {
      readonly type: "answered";
      readonly question: RehearsalQuestionView;
      readonly typed: Typed;
      readonly next: string;
    };

export const startRehearsal = (first: string): RehearsalState => ({
  current: first,
  seen: {},
  typed: {},
  answers: {},
  error: null,
});

export function nextRehearsal(state: RehearsalState, action: RehearsalAction): RehearsalState {
  switch (action.type) {
    case "looked":
      return { ...state, seen: { ...state.seen, [action.key]: (state.seen[action.key] ?? 0) + 1 } };
    case "typed":
      return { ...state, typed: { ...state.typed, [action.key]: action.typed }, error: null };
    case "went":
      return { ...state, current: action.to, error: null };
    case "answered": {
      const { question, typed, next } = action;
      const read = readTyped(question.form, typed);
      const kept = { ...state, typed: { ...state.typed, [question.key]: typed } };
      if (!read.ok) return { ...kept, error: { field: read.field, message: read.message } };
      return { ...kept, answers: { ...state.answers, [question.key]: read.answer }, current: next, error: null };
    }
  }
}

export const typedAt = (state: RehearsalState, { key, form }: RehearsalQuestionView): Typed =>
  state.typed[key] ?? untouched(form);
