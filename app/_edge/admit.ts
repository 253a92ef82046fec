import type { NextRequest } from "next/server";
import { problem, signInRequired } from "@/app/_edge/problem";
import { actorOf } from "@/app/_edge/request-actor";
import { noteActivity } from "@/lib/auth/activity";
import type { Actor } from "@/lib/auth/actor";
import { type RequestKind, requestWait } from "@/lib/auth/request-limit";

type Admitted = { readonly ok: true; readonly actor: Actor } | { readonly ok: false; readonly response: Response };
const turnedAway = (response: Response): Admitted => ({ ok: false, response });

/** Who is it, is the screen unlocked, and is it not too often? The same questions in the same order for every route. */
export async function admit(request: NextRequest, kind: RequestKind | "read"): Promise<Admitted> {
  const actor = await actorOf(request);
  if (!actor) return turnedAway(signInRequired());
  if (actor.session?.locked) return turnedAway(lockedProblem());
  if (kind !== "write" && actor.token && !actor.token.reads)
    return turnedAway(
      problem(403, "not-allowed", "Not allowed", `The token ${actor.token.name} was not issued for reading.`),
    );
  const wait = kind === "read" ? 0 : await requestWait(kind, actor);
  if (wait > 0)
    return turnedAway(
      problem(
        429,
        "too-often",
        "Too often",
        `That was asked too often in one minute. Nothing was changed; ask again in ${wait} seconds.`,
        { retryAfterSeconds: wait },
      ),
    );
  if (kind === "write") await noteActivity(actor);
  return { ok: true, actor };
}

export const lockedProblem = (): Response =>
  problem(423, "locked", "Locked", "This screen is locked. Unlock it and send the request again; nothing was changed.");
