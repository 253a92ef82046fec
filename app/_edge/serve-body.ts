import type { NextRequest } from "next/server";
import type { ZodType } from "zod";
import { admit } from "@/app/_edge/admit";
import { invalid, problem } from "@/app/_edge/problem";
import { refusalResponse } from "@/app/_edge/refusal";
import { jsonBody, refuseForeign } from "@/app/_edge/same-site";
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
  const admitted = await admit(request, "write");
  if (!admitted.ok) return admitted.response;
  const { actor } = admitted;
  if (actor.kind === "token")
    return problem(
      403,
      "not-allowed",
      "Not allowed",
      "A token gives the commands it was issued for, and nothing else.",
    );
  const body = await jsonBody(request);
  if (!body.ok) return body.response;
  const parsed = schema.safeParse(body.value);
  if (!parsed.success) return invalid(parsed.error, body.value);
  const outcome = await act(parsed.data, actor);
  return outcome.ok
    ? Response.json(outcome.value, { headers: { "cache-control": "no-store" } })
    : refusalResponse(outcome);
}
