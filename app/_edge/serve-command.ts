import type { NextRequest } from "next/server";
import { invalid, notFound, problem, signInRequired } from "@/app/_edge/problem";
import { actorOf } from "@/app/_edge/request-actor";
import { jsonBody, refuseForeign } from "@/app/_edge/same-site";
import { forgetDevice } from "@/lib/auth/device";
import { forgetSession } from "@/lib/auth/session";
import { commandNamed } from "@/lib/commands/all";
import type { Command, Refusal } from "@/lib/commands/command";
import { execute } from "@/lib/commands/execute";
import { appSurroundings } from "@/lib/commands/surroundings";
import { systemClock } from "@/lib/live/clock";

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

const KEY = /^[\x21-\x7e]{8,128}$/;
/** After these, what is known of other sessions may be wrong. */
const CHANGES_SESSIONS = new Set(["change-roles", "set-password", "import-department", "set-site"]);

/** The one way in for every write: is it from here, who is it, is it well formed, then the command. */
export async function serveCommand(request: NextRequest, name: string): Promise<Response> {
  const foreign = refuseForeign(request);
  if (foreign) return foreign;
  const command = commandNamed(name);
  if (!command) return notFound("command");
  const key = request.headers.get("idempotency-key");
  if (key !== null && !KEY.test(key))
    return problem(
      400,
      "bad-key",
      "Idempotency-Key",
      "An Idempotency-Key is 8 to 128 visible characters, new for every new request.",
    );
  const actor = await actorOf(request);
  if (!actor) return signInRequired();
  const body = await jsonBody(request);
  if (!body.ok) return body.response;
  const parsed = command.schema.safeParse(body.value);
  if (!parsed.success) return invalid(parsed.error, body.value);

  const outcome = await execute(appSurroundings(systemClock()), command as Command<unknown>, parsed.data, actor, key);
  if (!outcome.ok) return refusalResponse(outcome);
  if (CHANGES_SESSIONS.has(name)) forgetSession(null);
  if (name === "revoke-device") forgetDevice(null);
  const headers = {
    "cache-control": "no-store",
    ...(outcome.value.replayed ? { "idempotency-replayed": "true" } : {}),
  };
  return Response.json(outcome.value.reply, { headers });
}
