/** What a decision returns: expected refusals are values with a closed reason, never exceptions. */
export type Outcome<Value, Refusal extends string = string> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly refusal: Refusal; readonly message: string; readonly field?: string };

export const done = <Value>(value: Value): { readonly ok: true; readonly value: Value } => ({ ok: true, value });

/** `message` is one sentence for the person: what was refused and what would be right. */
export const refused = <Refusal extends string>(refusal: Refusal, message: string, field?: string) =>
  ({ ok: false, refusal, message, ...(field === undefined ? {} : { field }) }) as const;
