import type { NextRequest } from "next/server";
import { invalid, signInRequired } from "@/app/_edge/problem";
import { refusalResponse } from "@/app/_edge/refusal";
import { actorOf } from "@/app/_edge/request-actor";
import { jsonBody, refuseForeign } from "@/app/_edge/same-site";
import { unlock } from "@/lib/auth/lock";
import { deviceOf } from "@/lib/auth/request-device";
import { unlockRequest } from "@/lib/schemas/access";

/** Unlocks the screen for the person whose session it is. */
export async function POST(request: NextRequest): Promise<Response> {
  const foreign = refuseForeign(request);
  if (foreign) return foreign;
  const actor = await actorOf(request);
  if (!actor?.sessionId) return signInRequired();
  const body = await jsonBody(request);
  if (!body.ok) return body.response;
  const parsed = unlockRequest.safeParse(body.value);
  // What came may be a secret: it is not shown again.
  if (!parsed.success) return invalid(parsed.error, {});
  const outcome = await unlock(actor, parsed.data.secret, deviceOf(Object.fromEntries(request.headers)));
  return outcome.ok
    ? Response.json(outcome.value, { headers: { "cache-control": "no-store" } })
    : refusalResponse(outcome);
}
