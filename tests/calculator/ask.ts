import { expect } from "vitest";
import { answerLine } from "@/lib/exchange/calculator/answer-line";

export interface Answer {
  readonly id: unknown;
  readonly ok: boolean;
  readonly value?: unknown;
  readonly unit?: string | null;
  readonly refusal?: string;
  readonly message?: string;
  readonly [more: string]: unknown;
}

/** The answer to one request, as it comes out of a line. */
export function ask(calculation: string, inputs: object): Answer {
  return JSON.parse(answerLine(JSON.stringify({ id: 7, calculation, ...inputs })) ?? "null");
}

export function numberFrom(calculation: string, inputs: object): number {
  const answer = ask(calculation, inputs);
  expect(answer, answer.message).toMatchObject({ id: 7, ok: true, calculation });
  expect(typeof answer.value).toBe("number");
  return answer.value as number;
}

/** A refusal is for programs by its word and for people by its sentence. */
export function refusalFrom(calculation: string, inputs: object): Answer {
  const answer = ask(calculation, inputs);
  expect(answer.ok).toBe(false);
  expect(answer.message).toMatch(/\w.*[.?]$/s);
  expect(answer).not.toHaveProperty("value");
  return answer;
}
