import type { NextRequest } from "next/server";
import { signInRequired } from "@/app/_edge/problem";
import { actorOf } from "@/app/_edge/request-actor";
import { refuseForeign } from "@/app/_edge/same-site";
import { lock } from "@/lib/auth/lock";

/** Locks the screen of whoever is signed in; locking it twice is no mistake. */
export async function POST(request: NextRequest): Promise<Response> {
  const foreign = refuseForeign(request);
  if (foreign) return foreign;
  const actor = await actorOf(request);
  if (!actor?.sessionId) return signInRequired();
  await lock(actor);
  return Response.json({ locked: true }, { headers: { "cache-control": "no-store" } });
}
