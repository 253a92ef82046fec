import type { NextRequest } from "next/server";
import type { ZodType } from "zod";
import { invalid, signInRequired } from "@/app/_edge/problem";
import { refusalResponse } from "@/app/_edge/refusal";
import { actorOf } from "@/app/_edge/request-actor";
import type { Actor } from "@/lib/auth/actor";
import type { Refusal } from "@/lib/commands/command";
import type { Outcome } from "@/lib/domain/outcome";

/** A read with query parameters that can be refused with a reason: a moment to come, a workstation that is not here. */
export async function serveOutcome<Query, View>(
  request: NextRequest,
  schema: ZodType<Query>,
  read: (actor: Actor, query: Query) => Promise<Outcome<View, Refusal>>,
): Promise<Response> {
  const actor = await actorOf(request);
  if (!actor) return signInRequired();
  const given = Object.fromEntries(request.nextUrl.searchParams);
  const parsed = schema.safeParse(given);
  if (!parsed.success) return invalid(parsed.error, given);
  const outcome = await read(actor, parsed.data);
  if (!outcome.ok) return refusalResponse(outcome);
  return Response.json(outcome.value, { headers: { "cache-control": "no-store" } });
}
