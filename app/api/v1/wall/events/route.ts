import type { NextRequest } from "next/server";
import { problem, signInRequired } from "@/app/_edge/problem";
import { wallViewer } from "@/app/_edge/wall-viewer";
import { eventStream } from "@/lib/live/event-stream";
import { runningHub } from "@/lib/live/running-hub";

export const dynamic = "force-dynamic";

/** The facility's changes as a wall may know them (Server-Sent Events): hello, wall, beat, ended. */
export async function GET(request: NextRequest): Promise<Response> {
  // As for the staff's stream: while the database is away each wall is told so, and the log hears of it once.
  const viewer = await wallViewer().catch(() => "unknown" as const);
  if (viewer === "unknown")
    return problem(503, "unavailable", "Not available", "The database cannot be reached. Try again in a moment.");
  if (!viewer) return signInRequired();
  const body = eventStream(runningHub(), viewer.facilityId, viewer.streamKey, request.signal, "wall");
  return new Response(body, {
    headers: {
      "content-type": "text/event-stream; charset=utf-8",
      "cache-control": "no-cache, no-transform",
      "x-accel-buffering": "no",
    },
  });
}
