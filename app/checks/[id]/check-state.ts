import { sideOf } from "@/app/_parts/answer/answer-words";
import type { FieldError } from "@/app/_parts/answer/read-all";
import { isUntouched, readTyped, type Typed, typedFrom, typedOf, untouched } from "@/app/_parts/answer/typed";
import type { Answer } from "@/lib/domain/answer";
import type { CheckItemView, CheckView } from "@/lib/schemas/check";

export type Recorded = CheckView["recorded"][number];
/** Answers on their way to the server, under one Idempotency-Key: however often the request is repeated, they count once. */
export interface Batch {
  readonly id: string;
  readonly answers: readonly { readonly key: string; readonly answer: Answer }[];
}

/** What of a check lives on this device until the server has it. */
export interface Kept {
  readonly typed: Readonly<Record<string, Typed>>;
  readonly queue: readonly Batch[];
}

export interface CheckState extends Kept {
  readonly view: CheckView;
  readonly errors: Readonly<Record<string, FieldError>>;
}

export type CheckAction =
  | { readonly type: "typed"; readonly key: string; readonly typed: Typed }
  | { readonly type: "missing"; readonly key: string; readonly error: FieldError }
  | { readonly type: "given"; readonly key: string; readonly answer: Answer; readonly batchId: string }
  | {
      readonly type: "recorded";
      readonly batchId: string;
      readonly verdicts: Readonly<Record<string, Recorded["verdict"]>>;
      readonly version: number;
      readonly at: string;
      readonly by: string;
    }
  | { readonly type: "refused"; readonly batchId: string; readonly message: string }
  | { readonly type: "refreshed"; readonly view: CheckView }
  | { readonly type: "restored"; readonly kept: Kept }
  | { readonly type: "signed" };

export function startState(view: CheckView): CheckState {
  const typed: Record<string, Typed> = {};
  for (const item of view.items) {
    const draft = typedFrom(view.draft[item.key], item.form);
    if (!isUntouched(draft)) typed[item.key] = draft;
  }
  return { view, typed, queue: [], errors: {} };
}

export function nextState(state: CheckState, action: CheckAction): CheckState {
  switch (action.type) {
    case "typed":
      return {
        ...state,
        typed: { ...state.typed, [action.key]: action.typed },
        errors: without(state.errors, action.key),
      };
    case "missing":
      return { ...state, errors: { ...state.errors, [action.key]: action.error } };
    case "given":
      return given(state, action);
    case "recorded":
      return recorded(state, action);
    case "refused":
      return refused(state, action);
    case "refreshed":
      // An answer recorded after that reading was made must not vanish again.
      return action.view.version < state.view.version ? state : { ...state, view: action.view };
    case "signed":
      return { ...state, typed: {}, errors: {} };
    case "restored":
      return {
        ...state,
        typed: { ...state.typed, ...action.kept.typed },
        queue: [...action.kept.queue.filter(({ id }) => state.queue.every((one) => one.id !== id)), ...state.queue],
      };
  }
}

/** Every answer is a batch of its own: what may have been sent once never changes under its key. */
function given(state: CheckState, { key, answer, batchId }: Extract<CheckAction, { type: "given" }>): CheckState {
  return {
    ...state,
    queue: [...state.queue, { id: batchId, answers: [{ key, answer }] }],
    typed: without(state.typed, key),
    errors: without(state.errors, key),
  };
}

function recorded(state: CheckState, action: Extract<CheckAction, { type: "recorded" }>): CheckState {
  const batch = state.queue.find((one) => one.id === action.batchId);
  if (!batch) return state;
  const items = new Map(state.view.items.map((item) => [item.key, item]));
  const before = new Map(state.view.recorded.map((one) => [one.key, one]));
  for (const { key, answer } of batch.answers) {
    const item = items.get(key);
    const verdict = action.verdicts[key];
    if (!item || !verdict) continue;
    const previous = before.get(key)?.previous ?? null;
    before.set(key, {
      observationId: batch.id,
      key,
      item: item.item,
      subject: item.subject,
      answer,
      verdict,
      by: action.by,
      at: action.at,
      previous,
      // The server says these; the check is read again in a moment.
      worth: null,
      since: null,
    });
  }
  return {
    ...state,
    view: { ...state.view, recorded: [...before.values()], version: Math.max(state.view.version, action.version) },
    queue: state.queue.filter((one) => one !== batch),
  };
}

/** A refused batch goes back into the fields, with what the server said: nothing a person entered disappears. */
function refused(state: CheckState, { batchId, message }: Extract<CheckAction, { type: "refused" }>): CheckState {
  const batch = state.queue.find((one) => one.id === batchId);
  if (!batch) return state;
  const typed = { ...state.typed };
  const errors = { ...state.errors };
  for (const { key, answer } of batch.answers) {
    typed[key] = typed[key] ?? typedOf(answer);
    errors[key] = { field: null, message };
  }
  return { ...state, typed, errors, queue: state.queue.filter((one) => one !== batch) };
}

/** What one item shows: the answer (sent or still waiting), its verdict once known, and what stands in its fields. */
export interface ItemStanding {
  readonly state: "open" | "typed" | "waiting" | "passing" | "failing" | "noted";
  readonly answer: Answer | null;
  readonly recorded: Recorded | null;
}

const STATE_OF = { pass: "passing", fail: "failing", noted: "noted" } as const;

export function standingOf(state: CheckState, item: CheckItemView): ItemStanding {
  const recordedNow = state.view.recorded.find((one) => one.key === item.key) ?? null;
  const waiting = state.queue.flatMap((batch) => batch.answers).findLast((one) => one.key === item.key);
  if (waiting) {
    return {
      state: looksFailing(item, waiting.answer) ? "failing" : "waiting",
      answer: waiting.answer,
      recorded: recordedNow,
    };
  }
  if (recordedNow) return { state: STATE_OF[recordedNow.verdict], answer: recordedNow.answer, recorded: recordedNow };
  const typed = state.typed[item.key];
  return { state: typed && !isUntouched(typed) ? "typed" : "open", answer: null, recorded: null };
}

/** Is this answer plainly a failing one, before the server has said so? Keeps the item on the screen; it decides nothing. */
export function looksFailing(item: CheckItemView, answer: Answer): boolean {
  if (answer.kind === "pass") return !answer.passed;
  if (answer.kind === "timed")
    return !answer.held || (item.form.kind === "timed" && answer.seconds < item.form.seconds);
  if (answer.kind === "choice") return false;
  const side = sideOf(answer.reading, item.limits);
  return side === "below" || side === "above";
}

export const fieldsOf = (state: CheckState, item: CheckItemView): Typed => {
  const answer = standingOf(state, item).answer;
  return state.typed[item.key] ?? (answer ? typedOf(answer) : untouched(item.form));
};

export const readItem = (state: CheckState, item: CheckItemView) => readTyped(item.form, fieldsOf(state, item));

export interface Progress {
  readonly answered: number;
  readonly total: number;
  readonly waiting: number;
}

export function progressOf(state: CheckState): Progress {
  const answered = state.view.items.filter((item) => standingOf(state, item).answer !== null).length;
  return {
    answered,
    total: state.view.items.length,
    waiting: state.queue.reduce((sum, batch) => sum + batch.answers.length, 0),
  };
}

/** The next item without an answer after this one, going round once; null when every item is answered. */
export function nextOpen(state: CheckState, after: string | null): CheckItemView | null {
  const { items } = state.view;
  const from = items.findIndex((item) => item.key === after) + 1;
  return (
    [...items.slice(from), ...items.slice(0, from)].find(
      (item) => item.key !== after && standingOf(state, item).answer === null,
    ) ?? null
  );
}

function without<Value>(record: Readonly<Record<string, Value>>, key: string): Readonly<Record<string, Value>> {
  if (!(key in record)) return record;
  const { [key]: _, ...rest } = record;
  return rest;
}
