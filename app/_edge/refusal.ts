import { problem } from "@/app/_edge/problem";
import type { Refusal } from "@/lib/commands/command";

/** Which HTTP status a refusal has; a new refusal does not compile until it has one. */
export const STATUS: Record<Refusal, number> = {
  "not-found": 404,
  "not-allowed": 403,
  "not-yours": 403,
  "moved-on": 409,
  "already-done": 409,
  taken: 409,
  "does-not-fit": 422,
  invalid: 422,
  "key-reused": 409,
  "sign-in-required": 401,
  "signature-required": 428,
  "signature-wrong": 403,
  "too-many": 429,
  locked: 423,
};

const TITLES: Record<Refusal, string> = {
  "not-found": "Not found",
  "not-allowed": "Not allowed",
  "not-yours": "Not yours",
  "moved-on": "It has moved on",
  "already-done": "Already done",
  taken: "Somebody else has it",
  "does-not-fit": "It does not fit",
  invalid: "Something is not right",
  "key-reused": "Idempotency-Key used before",
  "sign-in-required": "Sign in",
  "signature-required": "Sign",
  "signature-wrong": "Not signed",
  "too-many": "Too many attempts",
  locked: "Locked",
};

/** A refusal as problem details: the sentence, and the field when there is one. */
export function refusalResponse(outcome: {
  readonly refusal: Refusal;
  readonly message: string;
  readonly field?: string;
}): Response {
  const { refusal, message, field } = outcome;
  return problem(STATUS[refusal], refusal, TITLES[refusal], message, field ? { errors: [{ field, message }] } : {});
}
