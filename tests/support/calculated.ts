import type { Computed } from "@/lib/calculations/calculated";

type Answer = { readonly ok: boolean };

/** The answer of a calculation that must not refuse. */
export function computed<Given extends Answer>(answer: Given): Extract<Given, Computed<unknown>> {
  if (!answer.ok) throw new Error(`refused: ${JSON.stringify(answer)}`);
  return answer as Extract<Given, Computed<unknown>>;
}

/** The value of a calculation that must not refuse. */
export function answerOf<Value>(answer: Computed<Value> | { readonly ok: false }): Value {
  return computed(answer).value;
}

/** The reason of a calculation that must refuse, and that it says a sentence about it. */
export function refusalOf(answer: object): string {
  const { refusal, message } = answer as { refusal?: string; message?: string };
  if (refusal === undefined) throw new Error(`not refused: ${JSON.stringify(answer)}`);
  if (!message || !/^[A-Z0-9("/+].{10,}[.]$/s.test(message)) throw new Error(`${refusal} has no sentence: ${message}`);
  return refusal;
}

/** No number in an answer, however deep, is NaN or infinite. */
export function allFinite(answer: unknown): boolean {
  if (typeof answer === "number") return Number.isFinite(answer);
  if (typeof answer !== "object" || answer === null) return true;
  return Object.values(answer).every(allFinite);
}
