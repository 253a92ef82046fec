import type { NextRequest } from "next/server";
import { problem, signInRequired } from "@/app/_edge/problem";
import { actorOf } from "@/app/_edge/request-actor";
import { eventStream } from "@/lib/live/event-stream";
import { runningHub } from "@/lib/live/running-hub";

export const dynamic = "force-dynamic";

/** The facility's changes as they happen (Server-Sent Events): hello, rows, beat, ended. */
export async function GET(request: NextRequest): Promise<Response> {
  // Every open board asks again and again while the database is away: each is told so, and the log hears of it once, from the hub.
  const actor = await actorOf(request).catch(() => "unknown" as const);
  if (actor === "unknown")
    return problem(503, "unavailable", "Not available", "The database cannot be reached. Try again in a moment.");
  if (!actor?.sessionId) return signInRequired();
  const body = eventStream(runningHub(), actor.facility.id, actor.sessionId, request.signal);
  return new Response(body, {
    headers: {
      "content-type": "text/event-stream; charset=utf-8",
      // Compressed or gathered up on its way, an event would wait for the next one.
      "cache-control": "no-cache, no-transform",
      "x-accel-buffering": "no",
    },
  });
}
