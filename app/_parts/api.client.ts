import type { CommandName, Commands } from "./command-types";
import { askToSign, mayTryAgain, type SigningAsked, signingIn } from "./sign-ceremony.client";
import { askToSignInAgain, sessionHasEnded, sessionLives } from "./sign-in-again.client";

/** What the API says when it refuses (RFC 9457), or what this side says when the server was not reached (status 0). */
export interface Problem {
  type: string;
  title: string;
  status: number;
  detail: string;
  errors?: { field: string; value?: unknown; message: string }[];
  /** Of a signature that is missing: who signs, and what is asked for. */
  signing?: SigningAsked;
}

export type Reply<Value> = { ok: true; value: Value } | { ok: false; problem: Problem };

/** True when the request may simply be sent again: it never arrived, or the answer did not. */
export const mayRetry = (problem: Problem): boolean => problem.status === 0 || problem.status >= 502;

/** The message for one field of a form, if the server named it. */
export function fieldMessage(problem: Problem | null, field: string): string | null {
  return problem?.errors?.find((error) => error.field === field)?.message ?? null;
}

/**
 * Sends a command. `key` names the person's intent: the same key is sent again on a retry, so that it is done once.
 * An expired session opens the sign-in dialog in place, and the same request goes out again after it.
 */
export async function sendCommand<Name extends CommandName>(
  name: Name,
  input: Commands[Name]["input"],
  { key }: { key: string },
): Promise<Reply<Commands[Name]["reply"]>> {
  const path = `/api/v1/commands/${name}`;
  const reply = await postJson<Commands[Name]["reply"]>(path, input, { key });
  const asked = reply.ok ? null : signingIn(reply.problem);
  return asked ? signed(path, input, key, reply, asked) : reply;
}

/** A command that is a signature goes out again with what the person gives; closing the dialog leaves it as it was. */
async function signed<Value>(
  path: string,
  input: object,
  key: string,
  first: Reply<Value>,
  asked: SigningAsked,
): Promise<Reply<Value>> {
  let last = first;
  await askToSign(asked, async (signature) => {
    last = await postJson<Value>(path, { ...input, signature }, { key });
    return last.ok || !mayTryAgain(last.problem) ? null : last.problem.detail;
  });
  return last;
}

/** A request that hangs in a dead corner of the network counts as not heard; it may be sent again under its key. */
const LONGEST_WAIT = 45_000;

/** Posts JSON to any path of the API, with the same care as a command. */
export async function postJson<Value>(path: string, body: unknown, { key }: { key: string }): Promise<Reply<Value>> {
  return withSession(() =>
    fetch(path, {
      method: "POST",
      headers: { "content-type": "application/json", "idempotency-key": key, accept: "application/json" },
      body: JSON.stringify(body),
      credentials: "same-origin",
      signal: AbortSignal.timeout(LONGEST_WAIT),
    }),
  );
}

/** Reads a view of the API. */
export async function fetchView<Value>(path: string): Promise<Reply<Value>> {
  return withSession(() => get(path));
}

/** For TanStack Query, in the background: the view, or its problem thrown. It never opens a dialog over somebody's work. */
export async function viewOrThrow<Value>(path: string): Promise<Value> {
  const reply = await attempt<Value>(() => get(path));
  if (reply.ok) return reply.value;
  if (reply.problem.status === 401) sessionHasEnded();
  throw new ProblemError(reply.problem);
}

const get = (path: string): Promise<Response> =>
  fetch(path, {
    headers: { accept: "application/json" },
    credentials: "same-origin",
    signal: AbortSignal.timeout(LONGEST_WAIT),
  });

export class ProblemError extends Error {
  constructor(readonly problem: Problem) {
    super(problem.detail);
    this.name = "ProblemError";
  }
}

async function withSession<Value>(request: () => Promise<Response>): Promise<Reply<Value>> {
  const reply = await attempt<Value>(request);
  if (reply.ok || reply.problem.status !== 401) return reply;
  const signedIn = await askToSignInAgain();
  return signedIn ? attempt<Value>(request) : reply;
}

async function attempt<Value>(request: () => Promise<Response>): Promise<Reply<Value>> {
  const askedAt = performance.now();
  try {
    const response = await request();
    const body: unknown = await response.json().catch(() => null);
    if (response.ok) {
      sessionLives(askedAt);
      return { ok: true, value: body as Value };
    }
    return { ok: false, problem: problemOf(response, body) };
  } catch {
    return { ok: false, problem: NOT_REACHED };
  }
}

const NOT_REACHED: Problem = {
  type: "not-reached",
  title: "The server was not reached",
  status: 0,
  detail: "Nothing was lost. Try again when the connection is back.",
};

function problemOf(response: Response, body: unknown): Problem {
  if (typeof body === "object" && body !== null && "title" in body) {
    const said = body as Partial<Problem>;
    return {
      type: said.type ?? "about:blank",
      title: said.title ?? response.statusText,
      status: said.status ?? response.status,
      detail: said.detail ?? "",
      errors: said.errors,
      signing: said.signing,
    };
  }
  return {
    type: "about:blank",
    title: "The server could not answer",
    status: response.status,
    detail: `It answered ${response.status} without saying why. Nothing was changed that it has not confirmed.`,
  };
}
