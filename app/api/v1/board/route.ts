import type { NextRequest } from "next/server";
import { admit } from "@/app/_edge/admit";
import { boardSnapshot } from "@/lib/live/snapshot";

export const dynamic = "force-dynamic";

/** The facility's board, the same bytes for everybody who may see it; 304 when the caller has them already. */
export async function GET(request: NextRequest): Promise<Response> {
  const admitted = await admit(request, "read");
  if (!admitted.ok) return admitted.response;
  const { body, etag } = await boardSnapshot(admitted.actor.facility.id);
  // Kept by nobody without asking: the next person on this device may be of another facility.
  const headers = { etag, "cache-control": "private, no-cache", vary: "Cookie, Authorization" };
  if (has(request.headers.get("if-none-match"), etag)) return new Response(null, { status: 304, headers });
  return new Response(body, { headers: { ...headers, "content-type": "application/json" } });
}

/** A compressing proxy marks the tag as weak; the rows are the same. */
function has(asked: string | null, etag: string): boolean {
  return asked?.split(",").some((tag) => tag.trim().replace(/^W\//, "") === etag) ?? false;
}
