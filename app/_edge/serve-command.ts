import type { NextRequest } from "next/server";
import { admit } from "@/app/_edge/admit";
import { invalid, notFound, problem } from "@/app/_edge/problem";
import { refusalResponse } from "@/app/_edge/refusal";
import { jsonBody, refuseForeign } from "@/app/_edge/same-site";
import { takeSignature } from "@/app/_edge/take-signature";
import { forgetToken } from "@/lib/auth/api-token";
import { forgetDevice } from "@/lib/auth/device";
import { guessesHeld } from "@/lib/auth/guesses";
import { deviceOf } from "@/lib/auth/request-device";
import { forgetSession } from "@/lib/auth/session";
import { commandNamed } from "@/lib/commands/all";
import type { Command } from "@/lib/commands/command";
import { execute } from "@/lib/commands/execute";
import { appSurroundings } from "@/lib/commands/surroundings";
import { systemClock } from "@/lib/live/clock";

const KEY = /^[\x21-\x7e]{8,128}$/;
/** After these, what is known of other sessions may be wrong. */
const CHANGES_SESSIONS = new Set([
  "change-roles",
  "set-password",
  "import-department",
  "set-site",
  "set-pin",
  "clear-pin",
  "set-access",
  "unbind-identity",
]);

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
  const admitted = await admit(request, "write");
  if (!admitted.ok) return admitted.response;
  const { actor } = admitted;
  const body = await jsonBody(request);
  if (!body.ok) return body.response;
  const { rest, given } = command.meaning ? partedBody(body.value) : { rest: body.value, given: undefined };
  const parsed = command.schema.safeParse(rest);
  if (!parsed.success) return invalid(parsed.error, rest);
  const device = deviceOf(Object.fromEntries(request.headers));
  const proof = command.meaning
    ? await takeSignature(command, given, actor, device)
    : { ok: true as const, value: null };
  if (!proof.ok) return proof.response;
  const held = await guessesHeld(name, actor, device);
  if (!held.ok) return refusalResponse(held);

  const outcome = await execute(
    appSurroundings(systemClock()),
    command as Command<unknown>,
    parsed.data,
    actor,
    key,
    proof.value,
  );
  if (!outcome.ok) return refusalResponse(outcome);
  await held.value.right();
  forgetWhatChanged(name);
  const headers = {
    "cache-control": "no-store",
    ...(outcome.value.replayed ? { "idempotency-replayed": "true" } : {}),
  };
  return Response.json(outcome.value.reply, { headers });
}

/** What a signature is given with stands beside the input, and is no part of what is kept. */
function partedBody(body: unknown): { rest: unknown; given: unknown } {
  if (typeof body !== "object" || body === null || Array.isArray(body)) return { rest: body, given: undefined };
  const { signature, ...rest } = body as Readonly<Record<string, unknown>>;
  return { rest, given: signature };
}

function forgetWhatChanged(name: string): void {
  if (CHANGES_SESSIONS.has(name)) forgetSession(null);
  if (CHANGES_SESSIONS.has(name) || name === "revoke-token") forgetToken(null);
  if (name === "revoke-device") forgetDevice(null);
}
