import type { NextRequest } from "next/server";
import type { ZodType } from "zod";
import { invalid, signInRequired } from "@/app/_edge/problem";
import { actorOf } from "@/app/_edge/request-actor";
import { jsonBody, refuseForeign } from "@/app/_edge/same-site";
import { refusalResponse } from "@/app/_edge/serve-command";
import type { Actor } from "@/lib/auth/actor";
import type { Refusal } from "@/lib/commands/command";
import type { Outcome } from "@/lib/domain/outcome";

/** The edge for the few writes that are not commands of a facility: the same questions in the same order. */
export async function serveBody<In, Value>(
  request: NextRequest,
  schema: ZodType<In>,
  act: (input: In, actor: Actor) => Promise<Outcome<Value, Refusal>>,
): Promise<Response> {
  const foreign = refuseForeign(request);
  if (foreign) return foreign;
  const actor = await actorOf(request);
  if (!actor) return signInRequired();
  const body = await jsonBody(request);
  if (!body.ok) return body.response;
  const parsed = schema.safeParse(body.value);
  if (!parsed.success) return invalid(parsed.error, body.value);
  const outcome = await act(parsed.data, actor);
  return outcome.ok
    ? Response.json(outcome.value, { headers: { "cache-control": "no-store" } })
    : refusalResponse(outcome);
}
