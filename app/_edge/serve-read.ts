import type { NextRequest } from "next/server";
import type { ZodType } from "zod";
import { admit } from "@/app/_edge/admit";
import { invalid, notFound, signInRequired } from "@/app/_edge/problem";
import { actorOf } from "@/app/_edge/request-actor";
import type { Actor } from "@/lib/auth/actor";

type ReadKind = "read" | "dear-read";

/** A read of the API: who is it, then the answer as JSON, or "not found" for null. A dear one is counted. */
export async function serveRead<View>(
  request: NextRequest,
  what: string,
  read: (actor: Actor) => Promise<View | null>,
  kind: ReadKind = "read",
): Promise<Response> {
  const admitted = await admit(request, kind);
  if (!admitted.ok) return admitted.response;
  const view = await read(admitted.actor);
  return view === null ? notFound(what) : Response.json(view, { headers: { "cache-control": "no-store" } });
}

/** The same with query parameters, checked by their schema. */
export async function serveQuery<Query, View>(
  request: NextRequest,
  schema: ZodType<Query>,
  what: string,
  read: (actor: Actor, query: Query) => Promise<View | null>,
  kind: ReadKind = "read",
): Promise<Response> {
  const given = Object.fromEntries(request.nextUrl.searchParams);
  const parsed = schema.safeParse(given);
  if (!parsed.success) return (await actorOf(request)) ? invalid(parsed.error, given) : signInRequired();
  return serveRead(request, what, (actor) => read(actor, parsed.data), kind);
}
