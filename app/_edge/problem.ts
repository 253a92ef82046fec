import type { ZodError } from "zod";

/** One field that is wrong: which, what it held, and what would be right. */
export interface FieldProblem {
  readonly field: string;
  readonly value?: unknown;
  readonly message: string;
}

/** RFC 9457 problem details: every refusal of the API has this shape. */
export interface Problem {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly detail: string;
  readonly errors?: readonly FieldProblem[];
  readonly [extension: string]: unknown;
}

export function problem(
  status: number,
  kind: string,
  title: string,
  detail: string,
  more: Readonly<Record<string, unknown>> = {},
): Response {
  const body: Problem = { type: `urn:yokeboard:problem:${kind}`, title, status, detail, ...more };
  const headers: Record<string, string> = { "content-type": "application/problem+json", "cache-control": "no-store" };
  if (typeof more.retryAfterSeconds === "number") headers["retry-after"] = String(more.retryAfterSeconds);
  return new Response(JSON.stringify(body), { status, headers });
}

export const signInRequired = (): Response =>
  problem(
    401,
    "sign-in-required",
    "Sign in",
    "Your session has ended or you have not signed in. Sign in and send the request again; nothing was changed.",
  );

export const notFound = (what: string): Response =>
  problem(404, "not-found", "Not found", `There is no such ${what} in your facility.`);

/** zod's findings as fields: the path, the value as it came, and zod's own words of what would be right. */
export function invalid(error: ZodError, input: unknown): Response {
  const errors = error.issues.map((issue) => ({
    field: issue.path.map(String).join(".") || "(whole)",
    value: shortened(valueAt(input, issue.path)),
    message: issue.message,
  }));
  const [first] = errors;
  const detail = first ? `${first.field}: ${first.message}` : "The request is not well formed.";
  return problem(422, "invalid", "Something in the request is not right", detail, { errors });
}

function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (value, key) =>
      value !== null && typeof value === "object" ? (value as Record<PropertyKey, unknown>)[key] : undefined,
    input,
  );
}

const LONGEST_SHOWN = 200;
function shortened(value: unknown): unknown {
  if (value === undefined || value === null || typeof value === "number" || typeof value === "boolean") return value;
  const text = typeof value === "string" ? value : written(value);
  return text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text;
}

/** What came may be nested deeper than can be written out again. */
function written(value: unknown): string {
  try {
    return JSON.stringify(value);
  } catch (error) {
    if (error instanceof RangeError) return "(nested too deep to show)";
    throw error;
  }
}
